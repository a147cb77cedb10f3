import Papa from "papaparse";

const bad = [
  "<script>globalThis.hit=1</script>",
  "<img src=x onerror=hit=1>",
  "</style></script><svg onload=hit=1>",
  "javascript:hit=1",
  '=HYPERLINK("http://192.0.2.1/x","y")',
  "@SUM(1+1)*cmd|' /C calc'!A0",
  "+1+1",
  "-1+hit",
  "http://192.0.2.1/picture.png",
  "__proto__",
  "constructor",
  "toString",
  "hasOwnProperty",
  "\u202egnp.exe",
  "{{constructor.constructor('hit=1')()}}",
  "datum.constructor",
];

const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;

/**
 * A harvest sheet made to do harm: markup, scripts, formulas and addresses in headers, names and cells, the names that
 * objects have of their own, a cell of a megabyte, and more columns than anyone fills.
 */
export function hostileSheet(columns = 1_500): string {
  const extra = Array.from({ length: columns - 9 - bad.length }, (_, column) => `extra ${column}`);
  const header = ["tray_id", "batch", "supplement", "strain", "inoculum_ml", "fresh_g", "dry_g", "outcome", "note"];
  const rows = Array.from({ length: 24 }, (_, row) => {
    const own = bad[row % bad.length]!;
    const id = row < bad.length ? own : `${own} ${row}`;
    const note = row === 3 ? "x<b>".repeat(250_000) : own;
    const dry = (4 + (row % 5) * 0.3 + (row % 2)).toFixed(1);
    const named = [id, bad[(row >> 2) % bad.length]!, own, own, row % 2 === 0 ? "5" : "10", "45", dry, "good", note];
    return [...named, ...bad, ...extra.map((_, column) => (column % 997 === row ? own : ""))].map(quoted).join(",");
  });
  return `${[...header, ...bad, ...extra].map(quoted).join(",")}\n${rows.join("\n")}\n`;
}

/** The cells of a saved sheet, counted, and those that start with what a spreadsheet program would run, plain numbers aside. */
export function riskyCells(text: string): { cells: number; risky: string[] } {
  const cells = Papa.parse<string[]>(text).data.flat();
  return {
    cells: cells.length,
    risky: cells.filter((cell) => /^[=@+\-\t\r]/.test(cell) && Number.isNaN(Number(cell))),
  };
}
