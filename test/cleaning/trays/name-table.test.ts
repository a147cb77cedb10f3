import fc from "fast-check";
import { expect, test } from "vitest";
import { ownText } from "../../../src/cleaning/rows/own-text.ts";
import { NameTable } from "../../../src/cleaning/trays/name-table.ts";
import { trayKey } from "../../../src/cleaning/trays/tray-key.ts";

test("a table of names finds the first name like it, as a map of their keys does", () => {
  const name = fc.oneof(
    fc.string({ maxLength: 6 }),
    fc.stringMatching(/^[Tt][ -]?0?[1-9]$/),
    fc.constantFrom("T1", "t 01", "1-12", "112", "Ä1", "a1"),
  );
  fc.assert(
    fc.property(fc.array(name, { maxLength: 200 }), (names) => {
      const table = new NameTable(names.length, (place) => names[place]!);
      const firsts = new Map<string, number>();
      for (const [place, one] of names.entries()) {
        const key = trayKey(one);
        if (!firsts.has(key)) firsts.set(key, place);
        expect(table.add(one, place)).toBe(firsts.get(key));
      }
    }),
  );
});

test("many names in a full table keep their places", () => {
  const names = Array.from({ length: 2_000 }, (_, tray) => `C${tray % 997}-${tray}`);
  const table = new NameTable(names.length, (place) => names[place]!);
  const places = names.map((_, place) => place);
  expect(names.map((name, place) => table.add(name, place))).toEqual(places);
  expect(names.map((name) => table.add(name.toLowerCase(), -1))).toEqual(places);
});

test("a text of its own is the same text", () => {
  const text = fc.array(fc.nat(0xffff), { maxLength: 40 }).map((codes) => String.fromCharCode(...codes));
  fc.assert(
    fc.property(text, (one) => {
      expect(ownText(one)).toBe(one);
    }),
  );
});
