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

/**
 * Walks through an XML document.
 * @param prefixByUri prefixes under which the names are given, by namespace
 * @throws Error where the document is not well-formed
 */
export function readXml(xml: string, prefixByUri: Readonly<Record<string, string>>, visitor: XmlVisitor): void {
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
