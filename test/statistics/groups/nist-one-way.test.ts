import { expect, test } from "vitest";
import { oneWayAnova } from "../../../src/statistics/groups/one-way-anova.ts";
import { digitsAgreed, expectAgreement } from "../../agreement.ts";
import peers from "../../reference/nist-peer-lre.json" with { type: "json" };
import resistivity from "../../reference/nist-SiRstv.json" with { type: "json" };
import simon from "../../reference/nist-SmLs01.json" with { type: "json" };

const groupsOf = (data: { group: number[]; y: number[] }): number[][] =>
  [...new Set(data.group)].map((name) => data.y.filter((_, i) => data.group[i] === name));

for (const [name, file] of [
  ["SiRstv", resistivity],
  ["SmLs01", simon],
] as const) {
  test(`one-way analysis of variance, NIST ${name}`, () => {
    const table = oneWayAnova(groupsOf(file.data));
    const { certified } = file.expected;
    expect([table.numeratorDf, table.denominatorDf]).toEqual([certified.between.df, certified.within.df]);
    const pairs = {
      SSB: [
        [table.between.sumOfSquares, certified.between.ss],
        [table.between.meanSquare, certified.between.ms],
      ],
      SSW: [
        [table.within.sumOfSquares, certified.within.ss],
        [table.within.meanSquare, certified.within.ms],
      ],
      F: [[table.f, certified.between.F]],
      R2: [[table.rSquared, certified.r2]],
      sigma: [[table.residualStandardDeviation, certified.residualSD]],
    } satisfies Record<string, [number, number][]>;
    for (const [statistic, own] of Object.entries(pairs)) {
      expectAgreement(
        {
          method: "one-way analysis of variance",
          dataset: `NIST ${name}`,
          statistic,
          source: "NIST StRD certified values",
        },
        own,
        14,
      );
      const peer = peers.rows.find(
        (one) => one.dataset === name && one.procedure === "aov" && one.statistic === statistic,
      );
      // no fewer digits than R 4.2.2 has on the same figure
      expect(digitsAgreed(...own[0]!), statistic).toBeGreaterThanOrEqual(peer!.lre!);
    }
  });
}

test("the harder levels of the Simon-Lesage design keep every digit", () => {
  // NIST StRD's SmLs04 and SmLs07 put 6 and 12 more leading digits before SmLs01's decimals and certify the same sums of
  // squares (from memory); the decimals are added as text, as they would be typed
  const { certified } = simon.expected;
  for (const [name, leading] of [
    ["7 leading digits, as SmLs04", 999_999],
    ["13 leading digits, as SmLs07", 999_999_999_999],
  ] as const) {
    const groups = groupsOf(simon.data).map((own) =>
      own.map((value) => {
        const [whole, decimals] = value.toFixed(1).split(".");
        return Number(`${leading + Number(whole)}.${decimals}`);
      }),
    );
    const table = oneWayAnova(groups);
    expectAgreement(
      {
        method: "one-way analysis of variance",
        dataset: name,
        statistic: "sums of squares, F, R², sigma",
        source: "NIST StRD certified values of SmLs01",
      },
      [
        [table.between.sumOfSquares, certified.between.ss],
        [table.within.sumOfSquares, certified.within.ss],
        [table.f, certified.between.F],
        [table.rSquared, certified.r2],
        [table.residualStandardDeviation, certified.residualSD],
      ],
      14,
    );
  }
});
