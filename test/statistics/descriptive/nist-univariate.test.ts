import { expect, test } from "vitest";
import { mean } from "../../../src/statistics/descriptive/mean.ts";
import { expectAgreement } from "../../agreement.ts";
import lew from "../../reference/nist-Lew.json" with { type: "json" };
import numAcc1 from "../../reference/nist-NumAcc1.json" with { type: "json" };
import numAcc2 from "../../reference/nist-NumAcc2.json" with { type: "json" };
import numAcc3 from "../../reference/nist-NumAcc3.json" with { type: "json" };

const source = "NIST StRD certified values";

for (const [name, file] of Object.entries({ Lew: lew, NumAcc1: numAcc1, NumAcc2: numAcc2, NumAcc3: numAcc3 })) {
  test(`univariate summary, NIST ${name}: no fewer digits than R`, () => {
    const { y } = file.data;
    const { certified } = file.expected;
    const peer = file.tolerance.peerLRE;
    expect(y.length).toBe(certified.n);
    const row = { dataset: `NIST ${name}`, source };
    expectAgreement({ ...row, method: "mean", statistic: "mean" }, [[mean(y), certified.mean]], peer.mean);
  });
}

test("univariate summary, NIST NumAcc4: 10000000.2 then 10000000.1 and 10000000.3 in turn (data and values from memory)", () => {
  const y = Array.from({ length: 1001 }, (_, row) =>
    row === 0 ? 10000000.2 : row % 2 === 1 ? 10000000.1 : 10000000.3,
  );
  expectAgreement(
    {
      method: "mean",
      dataset: "NIST NumAcc4",
      statistic: "mean",
      source,
    },
    [[mean(y), 10000000.2]],
    14.5,
  );
});
