import { expect, test } from "vitest";
import { splitByTray } from "../../../src/cleaning/trays/split-names.ts";
import type { TrayDraft } from "../../../src/cleaning/trays/tray-draft.ts";
import type { TrayLog } from "../../../src/cleaning/trays/tray-log.ts";
import { pickingsOf } from "../../../src/records/tray.ts";
import { harvestOf } from "../book-of.ts";

/** Rows of trays 1 to 3 in each of so many cooks. */
const rowsOf = (cooks: number, rest: (row: number) => string): string =>
  Array.from({ length: 3 * cooks }, (_, k) => `${(k % 3) + 1},C${Math.floor(k / 3)},${rest(k)}`).join("\n");

test("names that begin again in each cook are as many trays as there are rows, each with its own facts", async () => {
  const rest = (k: number): string => `5,${200 + k},20,good`;
  const { trays } = await harvestOf(`tray_id,batch,inoculum_ml,fresh_g,dry_g,outcome\n${rowsOf(40, rest)}\n`);
  const inOrder = [...trays].sort((a, b) => a.freshGrams! - b.freshGrams!);
  expect(inOrder.map(({ batch, freshGrams }) => [batch, freshGrams])).toEqual(
    Array.from({ length: 120 }, (_, k) => [`C${Math.floor(k / 3)}`, 200 + k]),
  );
  expect(new Set(trays.map(({ trayId }) => trayId)).size).toBe(120);
});

const silent = {
  headerOf: () => "",
  placeOf: () => ({ file: "", row: 0, column: "" }),
  add: () => {},
} as unknown as TrayLog;

/** How often any of so many rows of one name is looked at while they are parted, for each row, and the trays they give. */
async function looksPerRow(count: number, rest: (row: number) => string): Promise<[number, number]> {
  const rows = Array.from({ length: count }, (_, k) => `T${k},${rest(k)}`).join("\n");
  const { trays } = await harvestOf(`tray_id,batch,inoculum_ml,fresh_g,dry_g,harvested_on,outcome\n${rows}\n`);
  expect(trays).toHaveLength(count);
  let looks = 0;
  const watched = trays.map((tray): TrayDraft => {
    return new Proxy<TrayDraft>(
      { ...tray, trayId: "T", flushes: [...pickingsOf(tray)] },
      {
        get(target, property, receiver) {
          if (property === "flushes" || property === "batch") looks++;
          return Reflect.get(target, property, receiver);
        },
      },
    );
  });
  const parted = splitByTray(watched, silent, new Map());
  return [looks / count, parted.length];
}

test.each([
  ["used again in each cook", (k: number) => `C${k},5,${200 + k},20,,good`, (count: number) => count],
  ["said again and again", () => "C1,5,200,20,2026-03-01,good", () => 1],
  ["that differ in their weights", (k: number) => `,5,${200 + k},20,,good`, () => 1],
])("the work of telling rows of one name apart grows with the rows: %s", async (_, rest, trays) => {
  const [few, partedFew] = await looksPerRow(100, rest);
  const [many, partedMany] = await looksPerRow(400, rest);
  expect([partedFew, partedMany]).toEqual([trays(100), trays(400)]);
  expect(many).toBeLessThan(2 * few);
});
