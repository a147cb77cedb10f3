/** An element of a drawing as it stands in the page. */
export interface SvgElement {
  name: string;
  attributes: Record<string, string>;
  children: (SvgElement | string)[];
}

const shapes = new Set(["path", "circle", "line", "rect"]);

/** what a shape takes from the group around it: SVG 2, 6.2 "Presentation attributes", those that are inherited */
const inherited = ["fill", "stroke", "stroke-width", "stroke-dasharray"] as const;

/** as many alike in a row are worth a group */
const fewestAlike = 3;

const numberText = (value: number): string => String(Number(value.toFixed(1)));

/** A mark drawn around its own middle and then moved, drawn where it stands; curves other than a ring stay moved. */
function atItsPlace(element: SvgElement): SvgElement {
  const { transform, d, ...others } = element.attributes;
  const [, left, top] = /^translate\((-?[\d.]+),(-?[\d.]+)\)$/.exec(transform ?? "") ?? [];
  if (element.name !== "path" || left === undefined || d === undefined) return element;
  const [x, y] = [Number(left), Number(top)];
  const [, radius] = /^M([\d.]+),0A\1,\1,0,1,1,-\1,0A\1,\1,0,1,1,\1,0$/.exec(d) ?? [];
  if (radius !== undefined)
    return {
      name: "circle",
      attributes: { ...others, cx: numberText(x), cy: numberText(y), r: radius },
      children: element.children,
    };
  if (!/^[MLhvZz\d.,-]+$/.test(d)) return element;
  const moved = d.replace(
    /([ML])(-?[\d.]+),(-?[\d.]+)/g,
    (_, step: string, ownX: string, ownY: string) =>
      `${step}${numberText(x + Number(ownX))},${numberText(y + Number(ownY))}`,
  );
  return { ...element, attributes: { ...others, d: moved } };
}

const lookOf = ({ name, attributes }: SvgElement): string | undefined =>
  shapes.has(name) && inherited.some((key) => attributes[key] !== undefined)
    ? JSON.stringify(inherited.map((key) => attributes[key]))
    : undefined;

/** Shapes that look alike and follow each other, in a group that says their look once. */
function grouped(children: SvgElement["children"]): SvgElement["children"] {
  const runs: { look: string | undefined; parts: SvgElement["children"] }[] = [];
  for (const child of children) {
    const look = typeof child === "string" ? undefined : lookOf(child);
    const last = runs.at(-1);
    if (last !== undefined && look !== undefined && last.look === look) last.parts.push(child);
    else runs.push({ look, parts: [child] });
  }
  return runs.flatMap(({ parts }) => {
    if (parts.length < fewestAlike) return parts;
    const alike = parts as SvgElement[];
    const said = inherited.filter((key) => alike[0]!.attributes[key] !== undefined);
    return [
      {
        name: "g",
        attributes: Object.fromEntries(said.map((key) => [key, alike[0]!.attributes[key]!])),
        children: alike.map((shape) => ({
          ...shape,
          attributes: Object.fromEntries(
            Object.entries(shape.attributes).filter(([key]) => !said.includes(key as never)),
          ),
        })),
      },
    ];
  });
}

/** The same drawing in fewer letters: marks stand where they are, and what looks alike says so once. */
export function shortShapes(element: SvgElement): SvgElement {
  const placed = atItsPlace(element);
  const children = placed.children.map((child) => (typeof child === "string" ? child : shortShapes(child)));
  return { ...placed, children: grouped(children) };
}
