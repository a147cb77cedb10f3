import fc from "fast-check";
import { expect, test } from "vitest";
import { base91Of, bytesOf91 } from "../../src/live/base91.mjs";

test("two letters for 13 bits, worked by hand from the list of letters", () => {
  // 0 is "!", the first; 90 is "~", the last; 8191 = 90 * 91 + 1, and 1 is "#", for the quotation mark is none
  expect(base91Of(Uint8Array.of())).toBe("");
  expect(base91Of(Uint8Array.of(0))).toBe("!!");
  expect(base91Of(Uint8Array.of(90, 0))).toBe("~!!");
  expect(base91Of(Uint8Array.of(0xff, 0x1f))).toBe("#~!");
  expect(bytesOf91("#~!")).toEqual(Uint8Array.of(0xff, 0x1f));
});

test("bytes of any number come back, and their letters may stand in a script element", () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 64 }), (bytes) => {
      const text = base91Of(bytes);
      expect(text).not.toMatch(/[^!-~]|["\\<]/);
      expect(text.length).toBeLessThanOrEqual(Math.ceil((bytes.length * 16) / 13) + 1);
      expect(bytesOf91(text)).toEqual(bytes);
    }),
  );
});

test("texts of thirteen bytes each may be put end to end", () => {
  fc.assert(
    fc.property(fc.uint8Array({ minLength: 26, maxLength: 26 }), fc.uint8Array({ maxLength: 20 }), (start, end) => {
      expect(bytesOf91(base91Of(start) + base91Of(end))).toEqual(Uint8Array.of(...start, ...end));
    }),
  );
});

test("a damaged letter is named by its place", () => {
  expect(() => bytesOf91("Hello<orld")).toThrow("letter 6");
});
