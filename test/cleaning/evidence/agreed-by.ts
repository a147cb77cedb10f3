import type { ColumnPlan } from "../../../src/cleaning/columns/column-plan.ts";
import { planColumns } from "../../../src/cleaning/columns/plan-columns.ts";
import { profileColumns } from "../../../src/cleaning/columns/profile-columns.ts";
import { agreeOnDates, type DatesAgreed } from "../../../src/cleaning/evidence/agree-on-dates.ts";
import { agreeOnMarks } from "../../../src/cleaning/evidence/agree-on-marks.ts";
import { agreeOnUnits, type UnitAgreed } from "../../../src/cleaning/evidence/agree-on-units.ts";
import { applySettings } from "../../../src/cleaning/evidence/apply-settings.ts";
import { tableEvidence } from "../../../src/cleaning/evidence/table-evidence.ts";
import type { Settings } from "../../../src/records/setting.ts";
import { defaultSettings } from "../../../src/records/setting-definitions.ts";
import { tableOfText } from "../side-sheets/table-of-text.ts";

/** What the columns of a sheet typed in a test come to agree on, as a harvest sheet's do before its cells are read. */
async function agreements(
  text: string,
  stated: Partial<Settings> = {},
  besides: ColumnPlan["dates"]["order"] = "",
): Promise<{ plans: ColumnPlan[]; units: UnitAgreed[]; dates: DatesAgreed[] }> {
  const table = await tableOfText(text);
  const settings = { ...defaultSettings, ...stated };
  const { plans } = planColumns(table.file, table.header, settings, [], (indexes) => profileColumns(table, indexes));
  applySettings(plans, settings);
  const evidence = tableEvidence(table, plans);
  agreeOnMarks(plans, evidence);
  return {
    plans,
    units: agreeOnUnits(plans, evidence),
    dates: agreeOnDates(plans, evidence, settings, besides),
  };
}

/** Units of bare numbers by column, with the reason in the log where cells decided: "Temp °F as °C ...|Fresh wt ?". */
export async function agreedBy(text: string, stated?: Partial<Settings>): Promise<string> {
  const { plans, units } = await agreements(text, stated);
  const columns = plans.map((plan): string => {
    const { header, conventions, mixedTemperatures } = plan;
    const inLog = units.filter((one) => one.plan === plan);
    const unit =
      inLog[0]?.unit ?? (conventions.bareUnit || (plan.kind === "percent" && conventions.percentStyle) || "?");
    return [header, mixedTemperatures ? "mixed" : unit, ...inLog.map(({ reason }) => reason)].join(" ");
  });
  return columns.join("|");
}

/** Decimal marks by column: "Fresh wt ,|Dry wt ?". */
export async function marksOf(text: string, stated?: Partial<Settings>): Promise<string> {
  const { plans } = await agreements(text, stated);
  return plans.map(({ header, conventions }) => `${header} ${conventions.decimalMark || "?"}`).join("|");
}

/** Orders of day and month and systems of day counts by column, then the log: "Start day first|result, columns, reason". */
export async function datesOf(
  text: string,
  stated?: Partial<Settings>,
  besides?: ColumnPlan["dates"]["order"],
): Promise<{ columns: string; log: string[] }> {
  const { plans, dates } = await agreements(text, stated, besides);
  const ofDates = plans.filter(({ kind }) => kind === "date");
  return {
    columns: ofDates
      .map(({ header, dates: { order, epoch } }) => [header, order, epoch].filter((part) => part !== "").join(" "))
      .join("|"),
    log: dates.map(({ result, columns, reason, assumed }) =>
      [result, columns.join(" and "), reason, ...(assumed ? ["assumed"] : [])].join(": "),
    ),
  };
}
