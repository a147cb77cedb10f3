import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { expect, test } from "vitest";
import { DrawAside } from "../../src/cli/drawing/draw-aside.ts";
import { DrawingThread } from "../../src/cli/drawing/drawing-thread.ts";
import { drawCharts } from "../../src/report/draw-charts.ts";
import { builtFile } from "../built-file.ts";
import { sampleAnswers } from "../report/sample-answers.ts";
import { sampleBook } from "../report/sample-book.ts";

const book = sampleBook();

test("charts drawn in a thread of their own are the very ones drawn here, begun early or not", async () => {
  const here = await drawCharts(book, sampleAnswers);
  expect(here.size).toBeGreaterThan(2);
  const thread = DrawingThread.start(pathToFileURL(builtFile("drawing-worker.js")))!;
  const drawings = new DrawAside(thread);
  try {
    for (const answer of sampleAnswers.slice(0, 2)) drawings.begin(answer, book);
    expect(await drawings.finish(book, sampleAnswers)).toEqual(here);
  } finally {
    thread.end();
  }
});

test("a thread that dies leaves every answer, its charts with the reason", async () => {
  const folder = mkdtempSync(join(tmpdir(), "gramwright-aside-"));
  const file = join(folder, "dies.mjs");
  writeFileSync(file, 'throw new Error("no room left");');
  const thread = DrawingThread.start(pathToFileURL(file))!;
  const drawings = new DrawAside(thread);
  try {
    const first = await drawings.finish(book, sampleAnswers);
    const begun = new Set([...first.values()].map(({ narrow }) => JSON.stringify(narrow)));
    expect([...begun]).toEqual([JSON.stringify({ kind: "not-drawn", reason: "no room left" })]);
    // what is asked of it later does not wait for ever
    expect(await drawings.finish(sampleBook(), structuredClone(sampleAnswers))).toEqual(first);
  } finally {
    thread.end();
    rmSync(folder, { recursive: true });
  }
});

test("sources that run as they are have no such thread", () => {
  expect(DrawingThread.start()).toBeUndefined();
});
