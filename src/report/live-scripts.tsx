/** What makes the sheets of a report live: made by whoever builds the scripts, put into the page as it is. */
export interface LiveParts {
  /** the script that starts everything */
  script: string;
  /** further rules of style, without quotation marks, ampersands and less-than signs */
  styles?: string;
  /** the book, packed in letters among which there is no `<` */
  data: string;
  /** the program the script unpacks: gzip as text of base 91 */
  program?: string;
  /** the hash of that program once unpacked, as a content policy writes it */
  programHash?: string;
}

/** @throws RangeError if a part could end the element it stands in */
export function requireInert({ script, styles = "", data, program = "", programHash = "" }: LiveParts): void {
  const refuse = (part: string, why: string): never => {
    throw new RangeError(`renderReport: live.${part} ${why}`);
  };
  if (/<\/script|<!--/i.test(script)) refuse("script", "must not hold the end of a script element");
  if (/[<&"]/.test(styles)) refuse("styles", "must not hold a character that markup escapes");
  if (data.includes("<")) refuse("data", "must not hold a less-than sign");
  if (/[<\s]/.test(program)) refuse("program", "must hold no less-than sign and no space");
  if (!/^(?:sha256-[A-Za-z0-9+/=]+)?$/.test(programHash)) refuse("programHash", "must be a SHA-256 hash");
}

/** Text put into an element as it is; only for parts that `requireInert` has let pass. */
const asItIs = (text: string) => ({ dangerouslySetInnerHTML: { __html: text } });

/** The scripts at the end of the page: data and packed program are inert, the last one starts. */
export function LiveScripts({ live }: { live: LiveParts }) {
  return (
    <>
      <script type="text/plain" id="live-book" {...asItIs(live.data)} />
      {live.program === undefined ? null : <script type="text/plain" id="live-program" {...asItIs(live.program)} />}
      <script {...asItIs(live.script)} />
    </>
  );
}
