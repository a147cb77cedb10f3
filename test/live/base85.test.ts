import fc from "fast-check";
import { expect, test } from "vitest";
import { base85Of, bytesOf85 } from "../../src/live/base85.mjs";

test("the test case of ZeroMQ RFC 32, Z85", () => {
  const bytes = Uint8Array.of(0x86, 0x4f, 0xd2, 0x6f, 0xb5, 0x59, 0xf7, 0x5b);
  expect(base85Of(bytes)).toBe("HelloWorld");
  expect(bytesOf85("HelloWorld")).toEqual(bytes);
});

test("bytes of any number come back, and their letters may stand in a script element", () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 64 }), (bytes) => {
      const text = base85Of(bytes);
      expect(text).not.toMatch(/[^!-~]|["'`\\<]/);
      expect(text).toHaveLength(Math.ceil((bytes.length * 5) / 4));
      expect(bytesOf85(text)).toEqual(bytes);
    }),
  );
});

test("a damaged letter is named by its place", () => {
  expect(() => bytesOf85("Hello<orld")).toThrow("letter 6");
});
