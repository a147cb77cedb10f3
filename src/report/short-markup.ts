// End tags that may be omitted, by what follows them: HTML Living Standard, 13.1.2.4 "Optional tags".
const omittable =
  /<\/(?:t[dh](?=><t[dh][ >]|><\/tr>)|tr(?=><tr[ >]|><\/t(?:head|body|foot)>)|thead(?=><t(?:body|foot)>)|t(?:body|foot)(?=><tfoot>|><\/table>)|li(?=><li[ >]|><\/[uo]l>))>/g;

// Elements of a drawing that hold nothing may close themselves: the same, 13.1.2.1 "Start tags", for foreign elements.
const emptyShape = /<((path|circle|rect|line|polygon|polyline)(?: [^<>]*)?)><\/\2>/g;

/**
 * The same markup with what a browser puts in by itself left out.
 * @param html as `renderToString` writes it, with every less-than sign of a text escaped; no script in it
 */
export const shortMarkup = (html: string): string => html.replace(omittable, "").replace(emptyShape, "<$1/>");
