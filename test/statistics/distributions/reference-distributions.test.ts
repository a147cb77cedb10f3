import { readFileSync } from "node:fs";
import { test } from "vitest";
import { chiSquareUpperTail } from "../../../src/statistics/distributions/chi-square.ts";
import { fUpperTail } from "../../../src/statistics/distributions/f.ts";
import { noncentralTUpperTail } from "../../../src/statistics/distributions/noncentral-t.ts";
import { normalCdf, normalQuantile, normalUpperTail } from "../../../src/statistics/distributions/normal.ts";
import { studentTCdf, studentTQuantile, studentTUpperTail } from "../../../src/statistics/distributions/student-t.ts";
import { studentizedRangeUpperTail } from "../../../src/statistics/distributions/studentized-range.ts";
import { expectAgreement } from "../../agreement.ts";

/** One spot value. The file repeats the key "" for unnamed arguments, which a JSON reader would collapse, so it is read as text. */
interface Spot {
  name: string;
  unnamed: number[];
  upper: boolean;
  noncentral: boolean;
  value: number;
}

const text = readFileSync(new URL("../../reference/distributions.json", import.meta.url), "utf8");
const tolerance = JSON.parse(text.slice(text.indexOf('"tolerance"') + 12).replace(/,\s*"notes"[\s\S]*$/, "")) as {
  relative: number;
  ptukeyAbsolute: number;
  qtukeyRelative: number;
  noncentralRelative: number;
};
const spots: Spot[] = [...text.matchAll(/"fn": "(\w+)",\s*"args": ([{[][^}\]]*[}\]]),\s*"value": ([-+.\deE]+)/g)].map(
  ([, name, args, value]) => ({
    name: name!,
    unnamed: args!.startsWith("[")
      ? (JSON.parse(args!) as number[])
      : [...args!.matchAll(/"": ([-+.\deE]+)/g)].map((match) => Number(match[1])),
    upper: args!.includes('"lower.tail": false'),
    noncentral: args!.includes('"ncp"'),
    value: Number(value),
    ...(args!.includes('"ncp"')
      ? { unnamed: [...args!.matchAll(/"(?:|ncp)": ([-+.\deE]+)/g)].map((m) => Number(m[1])) }
      : {}),
  }),
);

type Routine = (...values: number[]) => number;
const rest =
  (upper: Routine): Routine =>
  (...values) =>
    1 - upper(...values);
const digits = -Math.log10(tolerance.relative);

function compare(
  method: string,
  name: string,
  lower: Routine,
  upper: Routine,
  noncentral: boolean,
  atLeast: number,
  floor = 0,
) {
  const rows = spots.filter((spot) => spot.name === name && spot.noncentral === noncentral);
  expectAgreement(
    { method, dataset: "spot values", statistic: "both tails", source: "R 4.2.2" },
    rows.map((spot) => [(spot.upper ? upper : lower)(...spot.unnamed), spot.value] as const),
    atLeast,
    floor,
  );
  return rows.length;
}

/** A printed quantile put into the upper tail gives back what it cuts off. */
function compareBack(method: string, name: string, upper: Routine, atLeast: number) {
  const rows = spots.filter((spot) => spot.name === name);
  expectAgreement(
    { method, dataset: "spot values", statistic: "tail beyond it", source: "R 4.2.2" },
    rows.map(({ unnamed: [p, ...parameters], value }) => [upper(value, ...parameters), 1 - p!] as const),
    atLeast,
  );
  return rows.length;
}

test("every spot value of the reference file but noncentral F is used", () => {
  const count = (text.match(/"fn":/g) ?? []).length;
  expectAgreement(
    { method: "reading the spot values", dataset: "spot values", statistic: "rows read", source: "the file itself" },
    [[spots.length, count]],
    15,
  );
  let compared = 0;
  compared += compare("Student's t distribution", "pt", studentTCdf, studentTUpperTail, false, digits);
  compared += compare("quantile of Student's t", "qt", studentTQuantile, studentTQuantile, false, digits);
  compared += compare("F distribution", "pf", rest(fUpperTail as Routine), fUpperTail as Routine, false, digits);
  compared += compareBack("quantile of F", "qf", fUpperTail as Routine, digits);
  compared += compare(
    "chi-square distribution",
    "pchisq",
    rest(chiSquareUpperTail as Routine),
    chiSquareUpperTail as Routine,
    false,
    digits,
  );
  compared += compare("normal distribution", "pnorm", normalCdf, normalUpperTail, false, digits);
  compared += compare("quantile of the normal", "qnorm", normalQuantile, normalQuantile, false, digits);
  const range = [rest(studentizedRangeUpperTail as Routine), studentizedRangeUpperTail as Routine] as const;
  compared += compare("studentized range", "ptukey", ...range, false, 8, tolerance.ptukeyAbsolute);
  const looseDigits = -Math.log10(tolerance.qtukeyRelative);
  compared += compareBack("quantile of the studentized range", "qtukey", range[1], looseDigits);
  const noncentralDigits = -Math.log10(tolerance.noncentralRelative);
  compared += compare(
    "noncentral t distribution",
    "pt",
    (t, df, away) => noncentralTUpperTail(-t!, df!, -away!),
    noncentralTUpperTail as Routine,
    true,
    noncentralDigits,
  );
  // no routine of ours gives the noncentral F
  const left = spots.filter(({ name, noncentral }) => name === "pf" && noncentral).length;
  expectAgreement(
    { method: "using the spot values", dataset: "spot values", statistic: "rows compared", source: "the file itself" },
    [[compared, count - left]],
    15,
  );
});
