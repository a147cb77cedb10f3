import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Ajv2020 } from "ajv/dist/2020.js";
import { expect, test } from "vitest";
import { snapshotOf } from "../../src/engine/run-snapshot.ts";
import { demoAnswers } from "./demo-answers.ts";

const schema = JSON.parse(
  readFileSync(fileURLToPath(new URL("../../docs/answers.schema.json", import.meta.url)), "utf8"),
);
const validate = new Ajv2020({ allErrors: true, strictTuples: false, allowUnionTypes: true }).compile(schema);
const { book, answers } = await demoAnswers();

/** What a reader of the file gets. */
const written = () => JSON.parse(JSON.stringify(snapshotOf(book, answers)));

test("the answers of the demo book have the documented shape (JSON Schema, draft 2020-12)", () => {
  expect(validate(written()) ? [] : validate.errors).toEqual([]);
});

test("a shape that is not documented is refused", () => {
  const other = { ...written(), format: "gramwright run 2" };
  expect(validate(other)).toBe(false);
  const odd = written();
  odd.answers[0].certainty = "certain";
  expect(validate(odd)).toBe(false);
  const more = written();
  more.answers[0].mood = "good";
  expect(validate(more)).toBe(false);
});
