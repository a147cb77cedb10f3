import { readXml } from "./read-xml.ts";
import { partName, type ZipEntries } from "./zip-entries.ts";

/** One sheet of a workbook's list, in its order. */
export interface WorkbookSheet {
  name: string;
  /** the archive's entry */
  entry: string;
  /** left out of sight in the workbook */
  hidden: boolean;
}

/** A workbook's parts found by what they are, wherever and however named the archive keeps them. */
export interface XlsxParts {
  sheets: WorkbookSheet[];
  strings: string | undefined;
  styles: string | undefined;
  /** its dates count from 1904 */
  from1904: boolean;
  /** the XML of a sheet */
  sheet(entry: string): string | undefined;
  /** the XML of the notes pinned to a sheet's cells */
  notes(entry: string): string | undefined;
}

const officeRelations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

/** Prefixes under which a workbook's XML is read, transitional and strict. */
export const xlsxPrefixes: Readonly<Record<string, string>> = {
  "http://schemas.openxmlformats.org/spreadsheetml/2006/main": "s",
  "http://purl.oclc.org/ooxml/spreadsheetml/main": "s",
  [officeRelations]: "r",
  "http://purl.oclc.org/ooxml/officeDocument/relationships": "r",
  "http://schemas.openxmlformats.org/package/2006/relationships": "p",
};

interface Relation {
  type: string;
  target: string;
}

/** The relations of a part, by their names; targets are resolved against the part's folder. */
function relationsOf(xml: string | undefined, folder: string): Map<string, Relation> {
  const found = new Map<string, Relation>();
  if (xml === undefined) return found;
  readXml(xml, xlsxPrefixes, {
    open: (tag, { Id, Target, Type }) => {
      if (tag !== "p:Relationship" || Id === undefined || Target === undefined) return;
      const path = Target.replaceAll("\\", "/");
      const joined = path.startsWith("/") ? path.slice(1) : `${folder}${path.replace(/^\.\//, "")}`;
      const steps: string[] = [];
      for (const step of joined.split("/")) {
        if (step === "..") steps.pop();
        else if (step !== "." && step !== "") steps.push(step);
      }
      found.set(Id, { type: (Type ?? "").split("/").at(-1)!, target: steps.join("/") });
    },
  });
  return found;
}

/**
 * Finds the parts of an .xlsx archive by its relations rather than by the names they mostly have, and unpacks no others.
 * @throws WorkbookLimit where they are too large; Error where the workbook's list of sheets is missing or damaged
 * @source ECMA-376 part 2, 9.3 (relationships), 6.2.2.3 (names are compared without regard to case), from memory
 */
export function xlsxParts(archive: ZipEntries): XlsxParts {
  const part = (entry: string): string | undefined => archive.text(entry);
  const main = [...relationsOf(part("_rels/.rels"), "").values()].find(({ type }) => type === "officeDocument")?.target;
  const entry = main !== undefined && archive.has(main) ? main : "xl/workbook.xml";
  const book = part(entry);
  if (book === undefined) throw new Error("the list of sheets is missing");
  const folder = entry.includes("/") ? entry.slice(0, entry.lastIndexOf("/") + 1) : "";
  const relations = relationsOf(part(`${folder}_rels/${entry.slice(folder.length)}.rels`), folder);
  const named = (type: string, usual: string): string =>
    [...relations.values()].find((relation) => relation.type.toLowerCase() === type)?.target ?? `${folder}${usual}`;
  const sheets: WorkbookSheet[] = [];
  let from1904 = false;
  readXml(book, xlsxPrefixes, {
    open: (tag, attributes) => {
      if (tag === "s:workbookPr") from1904 = /^(?:1|true)$/i.test(attributes.date1904 ?? "");
      const relation = relations.get(attributes["r:id"] ?? "");
      if (tag !== "s:sheet" || relation === undefined || attributes.name === undefined) return;
      // chart sheets and macro sheets hold no cells
      if (relation.type !== "worksheet" && relation.type !== "") return;
      sheets.push({ name: attributes.name, entry: relation.target, hidden: /hidden/i.test(attributes.state ?? "") });
    },
  });
  const [strings, styles] = [named("sharedstrings", "sharedStrings.xml"), named("styles", "styles.xml")];
  const held = archive.unpack([strings, styles, ...sheets.map((sheet) => sheet.entry)]);
  const text = (name: string): string | undefined => {
    const bytes = held.get(partName(name));
    return bytes === undefined ? undefined : new TextDecoder().decode(bytes);
  };
  const notes = (sheet: string): string | undefined => {
    const at = sheet.lastIndexOf("/") + 1;
    const own = relationsOf(part(`${sheet.slice(0, at)}_rels/${sheet.slice(at)}.rels`), sheet.slice(0, at));
    const found = [...own.values()].find(({ type }) => type.toLowerCase() === "comments");
    return found === undefined ? undefined : part(found.target);
  };
  return { sheets, strings: text(strings), styles: text(styles), from1904, sheet: text, notes };
}
