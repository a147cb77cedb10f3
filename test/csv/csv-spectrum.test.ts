import { expect, test } from "vitest";
import { readRecords } from "../../src/csv/text/read-records.ts";
import reference from "../reference/csv-spectrum.json" with { type: "json" };

// csv-spectrum, github.com/max-mapper/csv-spectrum (BSD-2-Clause): CSV texts and what they hold.
test.each(reference.cases)("csv-spectrum: $name", ({ name, csv, rows }) => {
  // the copy at hand has lost the line ends that its names and its JSON speak of
  const text = name.endsWith("_crlf") ? csv.replaceAll("\n", "\r\n") : csv;
  for (const stretch of [1 << 15, 4]) {
    const records: string[][] = [];
    readRecords([text], { delimiter: ",", stretch }, (cells) => void records.push(cells));
    const [header, ...body] = records;
    expect(body.map((cells) => Object.fromEntries(header!.map((name, index) => [name, cells[index]])))).toEqual(rows);
  }
});
