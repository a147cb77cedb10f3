import { fileName } from "../../src/records/file-stem.ts";
import { sourcesOf, type Tray } from "../../src/records/tray.ts";

/** Trays that belong to one trial: one harvest sheet, or several that speak of the same trays. */
export interface BookTrial {
  /** the sheet's name, without folder and ending */
  name: string;
  trays: Tray[];
  /** earliest date of inoculation or harvest; undefined where there is none */
  from: string | undefined;
}

const shortName = (file: string): string => fileName(file).replace(/\.[^.\s]+(?= > |$)/, "");

/** Sorts a book into its trials by the sheets its trays were read from, earliest first. */
export function trialsOfBook(trays: ReadonlyArray<Tray>): BookTrial[] {
  const parent = new Map<string, string>();
  const find = (file: string): string => {
    let root = file;
    while (parent.get(root) !== root) root = parent.get(root)!;
    return root;
  };
  const filesOf = (tray: Tray): string[] => {
    const files = [...new Set(sourcesOf(tray).map(({ file }) => file))];
    return files.length === 0 ? ["without a sheet"] : files;
  };
  for (const tray of trays) {
    const files = filesOf(tray);
    for (const file of files) if (!parent.has(file)) parent.set(file, file);
    for (const file of files.slice(1)) parent.set(find(file), find(files[0]!));
  }
  const groups = new Map<string, { files: Set<string>; trays: Tray[]; from: string | undefined }>();
  for (const tray of trays) {
    const files = filesOf(tray);
    const root = find(files[0]!);
    const group = groups.get(root) ?? { files: new Set<string>(), trays: [], from: undefined };
    groups.set(root, group);
    for (const file of files) group.files.add(file);
    group.trays.push(tray);
    const date = tray.inoculatedOn ?? tray.harvestedOn;
    if (date !== undefined && (group.from === undefined || date < group.from)) group.from = date;
  }
  const found = [...groups.values()].map(({ files, trays: own, from }) => ({
    name: [...files].map(shortName).join(" + "),
    trays: own,
    from,
  }));
  if (found.every(({ from }) => from !== undefined))
    found.sort((a, b) => (a.from! < b.from! ? -1 : a.from! > b.from! ? 1 : 0));
  return found;
}
