import { Parser } from "saxen";

/** What is done at each part of a document. Names carry the prefixes given to `readXml`. */
export interface XmlVisitor {
  open(name: string, attributes: Readonly<Record<string, string>>): void;
  close?(name: string): void;
  text?(text: string): void;
}

const entities: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" };

/** Entities of XML and character references, beyond the first plane too. */
function decoded(text: string): string {
  // XML reads every line end as a line feed
  const ended = text.includes("\r") ? text.replace(/\r\n?/g, "\n") : text;
  if (!ended.includes("&")) return ended;
  return ended.replace(/&(?:#(\d{1,7})|#x([\da-f]{1,6})|(\w+));/gi, (whole, decimal, hexadecimal, name) => {
    if (name !== undefined) return Object.hasOwn(entities, name) ? entities[name]! : whole;
    const code = decimal === undefined ? Number.parseInt(hexadecimal, 16) : Number(decimal);
    return code <= 0x10ffff ? String.fromCodePoint(code) : "\uFFFD";
  });
}

/** characters of a tag; those of workbooks have some thousand at most */
const longestTag = 1 << 16;

/** @throws Error where a tag goes on for so long that its attributes alone would take seconds */
function refuseLongTags(xml: string): void {
  let at = xml.indexOf("<");
  while (at !== -1) {
    const end = xml.indexOf(">", at);
    if (end === -1) return; // which is not well-formed, as is said when it is read
    if (end - at > longestTag && xml[at + 1] !== "!") throw new Error("a tag in it is too long");
    at = xml.indexOf("<", end);
  }
}

/**
 * Walks through an XML document.
 * @param prefixByUri prefixes under which the names are given, by namespace
 * @throws Error where the document is not well-formed, or a tag has no end in sight
 */
export function readXml(xml: string, prefixByUri: Readonly<Record<string, string>>, visitor: XmlVisitor): void {
  refuseLongTags(xml);
  const parser = new Parser();
  parser.ns({ ...prefixByUri });
  parser.on("openTag", (name, attributes) => {
    const found = attributes();
    for (const key in found) if (/[&\r]/.test(found[key]!)) found[key] = decoded(found[key]!);
    visitor.open(name, found);
  });
  parser.on("closeTag", (name) => visitor.close?.(name));
  parser.on("text", (text) => visitor.text?.(decoded(text)));
  parser.on("cdata", (text) => visitor.text?.(text));
  const failure = parser.parse(xml);
  if (failure) throw failure;
}
