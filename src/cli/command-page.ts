import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { writeOutputs } from "./output/output-set.ts";
import { PlainFailure } from "./plain-failure.ts";
import { print } from "./print.ts";

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

/**
 * `gramwright page`: writes the page that sheets are dropped on, one file that works from disk without a network. An
 * earlier copy of the page is replaced; any other file is left alone.
 * @param out where it goes
 * @throws PlainFailure if something else is there, or the file cannot be written
 */
export function writePage(out: string): void {
  const [written] = writeOutputs([{ path: out, text: builtPage(), kind: "page" }]);
  print(`${written}\nOpen it in a browser and drop your sheets on it. It needs no network.\n`);
}
