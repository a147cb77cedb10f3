import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { fileTrouble, PlainFailure } from "./plain-failure.ts";

/** The built page: beside the bundled program, or in dist/ when the sources run as they are. */
function builtPage(): string {
  const places = ["./page.html", "../../dist/page.html"].map((place) => fileURLToPath(new URL(place, import.meta.url)));
  const found = places.find((place) => existsSync(place));
  if (found === undefined) {
    throw new PlainFailure(
      "The page is missing from this copy of the program. Install it again, or run: npm run build.",
    );
  }
  return readFileSync(found, "utf8");
}

/** Whether a file is an earlier copy of the page, which may be replaced by a newer one. */
const isOurPage = (path: string): boolean => {
  const text = readFileSync(path, "utf8");
  return text.includes('<meta name="generator" content="Gramwright ') && text.includes('<body class="drop-page">');
};

/**
 * `gramwright page`: writes the page that sheets are dropped on, one file that works from disk without a network. An
 * earlier copy of the page is replaced; any other file is left alone.
 * @param out where it goes
 * @throws PlainFailure if something else is there, or the file cannot be written
 */
export function writePage(out: string): void {
  const page = builtPage();
  try {
    if (existsSync(out) && !isOurPage(out)) {
      throw new PlainFailure(`${out}: another file is already there. Give another name; nothing is written over.`);
    }
    writeFileSync(out, page);
  } catch (error) {
    if (error instanceof PlainFailure) throw error;
    throw new PlainFailure(`${out}: ${fileTrouble(error)}. Give a file name such as page.html.`);
  }
  process.stdout.write(`${out}\nOpen it in a browser and drop your sheets on it. It needs no network.\n`);
}
