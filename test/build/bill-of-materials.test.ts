import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { builtFile } from "../built-file.ts";

interface Component {
  name: string;
  group?: string;
  version: string;
  purl: string;
  licenses: { license?: { id?: string; name?: string }; expression?: string }[];
}

// CycloneDX 1.6 (ECMA-424): bomFormat, specVersion and version are required; a purl names a package of a registry
test("the bill of materials lists what the notices list, each with version and licence", () => {
  const bill = JSON.parse(readFileSync(builtFile("bill-of-materials.cdx.json"), "utf8"));
  expect(bill).toMatchObject({ bomFormat: "CycloneDX", specVersion: "1.6", version: 1 });
  expect(bill.serialNumber).toBeUndefined();
  expect(bill.metadata.timestamp).toBeUndefined();
  const components = bill.components as Component[];
  const names = components.map(
    ({ group, name, version }) => `${group === undefined ? "" : `${group}/`}${name} ${version}`,
  );
  const notices = readFileSync(builtFile("THIRD-PARTY-NOTICES.txt"), "utf8");
  const heads = notices.split(`\n${"-".repeat(72)}\n\n`).map((notice) => notice.split("\n")[0]!);
  expect([...names].sort()).toEqual([...heads].sort());
  for (const { purl, licenses, version } of components) {
    expect(purl).toMatch(/^pkg:npm\/(%40[a-z0-9-]+\/)?[a-z0-9.-]+@/);
    expect(purl.endsWith(`@${version}`)).toBe(true);
    expect(licenses.length).toBeGreaterThan(0);
  }
});
