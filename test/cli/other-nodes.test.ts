import { expect, test } from "vitest";
import { builtFile } from "../built-file.ts";
import { otherNodes, reportUnder } from "../other-nodes.ts";

const others = otherNodes();
const howTo = "no other version of Node found: install one as node22, or name it in GRAMWRIGHT_NODES";

// the other versions are not ours to install: a machine without any has nothing to compare, which the title then says
test.skipIf(others.length === 0)(
  `report, log and answers are the same bytes under every version of Node${others.length === 0 ? ` (${howTo})` : ""}`,
  () => {
    const program = builtFile("gramwright.js");
    const own = reportUnder(process.execPath, program);
    expect(own.size).toBe(3);
    for (const { version, path } of others) {
      for (const [name, text] of reportUnder(path, program)) {
        // two long texts that differ are no message
        expect(text === own.get(name), `${name} under ${version} and ${process.version}`).toBe(true);
      }
    }
  },
);
