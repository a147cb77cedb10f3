import { type ComponentChild, h } from "preact";
import { Parser } from "saxen";
import { type SvgElement, shortShapes } from "./short-shapes.ts";

const entities: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" };
const decoded = (text: string): string =>
  text.replace(/&(?:#(\d+)|#x([\da-fA-F]+)|(\w+));/g, (whole, decimal, hexadecimal, name) =>
    name !== undefined
      ? (entities[name] ?? whole)
      : String.fromCodePoint(decimal === undefined ? Number.parseInt(hexadecimal, 16) : Number(decimal)),
  );

/** what the drawing library writes and the page does not need, as it says the same by its own style */
const needless = new Set([
  "role",
  "class",
  "version",
  "pointer-events",
  "stroke-miterlimit",
  "font-family",
  "xmlns:xlink",
]);

/** what holds where nothing is said: by SVG itself, or by the page's style for letters */
const usual = new Set([
  ...["opacity=1", "stroke-width=1", "x2=0", "y2=0", "transform=translate(0,0)", "text-anchor=start"],
  ...["font-size=13px", "xmlns=http://www.w3.org/2000/svg"],
]);

/** An element's attributes as the page keeps them; a mark's own name becomes its classes. */
function kept(raw: Readonly<Record<string, string>>): Record<string, string> {
  const attributes: Record<string, string> = {};
  for (const [name, value] of Object.entries(raw)) {
    if (name === "aria-label" && value.startsWith("pick ")) attributes.class = decoded(value).trim();
    else if (name.startsWith("aria-") || needless.has(name)) continue;
    else if (usual.has(`${name}=${value}`)) continue;
    else attributes[name] = decoded(value);
  }
  return attributes;
}

const isInvisible = ({ name, attributes }: SvgElement): boolean =>
  name === "path" &&
  (attributes.display === "none" || (attributes.d ?? "") === "" || (!attributes.fill && !attributes.stroke));

/** The drawing as elements; groups that say nothing give way to what they hold. */
function parsed(svg: string): SvgElement {
  const root: SvgElement = { name: "", attributes: {}, children: [] };
  const open = [root];
  const parser = new Parser();
  parser.on("openTag", (name, attributes) => {
    const element: SvgElement = { name, attributes: kept(attributes()), children: [] };
    open.push(element);
  });
  parser.on("closeTag", () => {
    const element = open.pop()!;
    const parent = open.at(-1)!;
    if (isInvisible(element)) return;
    if (element.name === "g" && (Object.keys(element.attributes).length === 0 || element.children.length === 0))
      parent.children.push(...element.children);
    else parent.children.push(element);
  });
  parser.on("text", (text) => {
    if (text !== "") open.at(-1)!.children.push(decoded(text));
  });
  const failure = parser.parse(svg);
  if (failure) throw failure;
  return shortShapes(root.children[0] as SvgElement);
}

const asChild = (part: SvgElement | string): ComponentChild =>
  typeof part === "string" ? part : h(part.name, part.attributes, ...part.children.map(asChild));

/**
 * A drawing as elements of the page: it follows the page's colours, and its marks can be picked out.
 * @param svg made by `drawChart`
 * @param name what it shows, as one sentence with its numbers, for a reader who cannot see it
 */
export function SvgPicture({ svg, name, look }: { svg: string; name: string; look: string }) {
  const { attributes, children } = parsed(svg);
  return h("svg", { ...attributes, class: look, role: "img", "aria-label": name }, ...children.map(asChild));
}
