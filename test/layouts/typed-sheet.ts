import type { SeededRandom } from "../../src/statistics/random/seeded-random.ts";
import { type SheetLanguage, sheetLanguages } from "./sheet-words.ts";
import { type TrueTray, trueTrays } from "./tray-truth.ts";

/** What one column of a sheet holds. */
export type ColumnKey =
  | "tray"
  | "batch"
  | "dose"
  | "strain"
  | "inoculated"
  | "harvested"
  | "fresh"
  | "dry"
  | "outcome"
  | "note";

export interface TypedColumn {
  key: ColumnKey;
  header: string;
  /** a unit of its own, where it may stand in a line or a column of its own */
  unit: string;
  /** in the order of the trays */
  cells: string[];
  /** sums of its numbers are sensible */
  adds: boolean;
}

/** A sheet as its grower typed it, before it is laid out. */
export interface TypedSheet {
  trays: TrueTray[];
  language: SheetLanguage;
  columns: TypedColumn[];
  /** how it was typed, in a few words for a failure */
  typed: string[];
  decimals: (value: number) => string;
}

const dateForms = ["iso", "d.m.y", "d/m/y", "m/d/y", "d.m.yy", "m/d/yy", "d mon y"] as const;
const months = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split(" ");

function dateAs(iso: string | undefined, form: (typeof dateForms)[number]): string {
  if (iso === undefined) return "";
  const [year, month, day] = iso.split("-").map(Number) as [number, number, number];
  const short = String(year).slice(2);
  switch (form) {
    case "iso":
      return iso;
    case "d.m.y":
      return `${day}.${month}.${year}`;
    case "d/m/y":
      return `${day}/${month}/${year}`;
    case "m/d/y":
      return `${month}/${day}/${year}`;
    case "d.m.yy":
      return `${day}.${month}.${short}`;
    case "m/d/yy":
      return `${month}/${day}/${short}`;
    case "d mon y":
      return `${day} ${months[month - 1]} ${year}`;
  }
}

const gramsPerOunce = 28.349523125;

/** Types a sheet of known truth in one of the ways growers do. Seeded. */
export class Typist {
  readonly typed: string[] = [];

  constructor(readonly random: SeededRandom) {}

  pick<T>(values: ReadonlyArray<T>): T {
    return values[this.random.integer(values.length)]!;
  }

  /** Whether a thing of one in so many is done; noted by name. */
  chance(oneIn: number, name: string): boolean {
    if (this.random.integer(oneIn) > 0) return false;
    this.typed.push(name);
    return true;
  }

  choose<T extends string>(values: ReadonlyArray<T>): T {
    const value = this.pick(values);
    this.typed.push(value);
    return value;
  }

  type(): TypedSheet {
    const language = sheetLanguages[this.choose(Object.keys(sheetLanguages))]!;
    const flushes = this.chance(4, "flush columns") ? 2 : 1;
    const trays = trueTrays(this.random, flushes);
    const isComma = language.commaDecimals;
    const decimals = (value: number): string => (isComma ? String(value).replace(".", ",") : String(value));
    const columns: TypedColumn[] = [
      this.text("tray", language, trays, ({ name }) => name),
      this.text("batch", language, trays, ({ batch }) => batch),
      ...this.dose(language, trays),
      ...this.dates(language, trays),
      ...this.weights(language, trays, flushes, decimals),
      ...this.endings(language, trays),
    ];
    if (this.chance(3, "strain"))
      columns.splice(
        2,
        0,
        this.text("strain", language, trays, ({ strain }) => strain),
      );
    return { trays, language, columns, typed: this.typed, decimals };
  }

  private text(
    key: ColumnKey,
    language: SheetLanguage,
    trays: ReadonlyArray<TrueTray>,
    cell: (tray: TrueTray) => string,
  ): TypedColumn {
    return { key, header: this.pick(language[key]), unit: "", cells: trays.map(cell), adds: false };
  }

  private dose(language: SheetLanguage, trays: ReadonlyArray<TrueTray>): TypedColumn[] {
    const inCells = this.chance(3, "dose with unit");
    const cells = trays.map(({ dose }) => (inCells ? `${dose}${this.pick([" mL", "ml", " cc"])}` : String(dose)));
    return [{ key: "dose", header: this.pick(language.dose), unit: "ml", cells, adds: false }];
  }

  private dates(language: SheetLanguage, trays: ReadonlyArray<TrueTray>): TypedColumn[] {
    const form = this.choose(dateForms);
    const columns: TypedColumn[] = [
      {
        ...this.text("inoculated", language, trays, ({ inoculatedOn }) => dateAs(inoculatedOn, form)),
      },
    ];
    if (this.chance(2, "harvest dates"))
      columns.push(this.text("harvested", language, trays, ({ harvestedOn }) => dateAs(harvestedOn, form)));
    return columns;
  }

  private weights(
    language: SheetLanguage,
    trays: ReadonlyArray<TrueTray>,
    flushes: number,
    decimals: (value: number) => string,
  ): TypedColumn[] {
    const unit = this.choose(["g", "g", "g", "oz", "lb", "kg"] as const);
    const factor = { g: 1, oz: gramsPerOunce, lb: 16 * gramsPerOunce, kg: 1000 }[unit];
    const digits = { g: 1, oz: 2, lb: 4, kg: 4 }[unit];
    const typed = (grams: number | undefined): string =>
      grams === undefined ? "" : decimals(Number((grams / factor).toFixed(digits)));
    const inCells = this.chance(4, "weights with unit");
    const cell = (grams: number | undefined): string =>
      grams === undefined ? "" : inCells ? `${typed(grams)} ${unit}` : typed(grams);
    const fresh = this.pick(language.fresh);
    const column = (key: ColumnKey, header: string, cells: string[], own: string = unit): TypedColumn => ({
      ...{ key, header, cells, adds: true },
      unit: inCells ? "" : own,
    });
    const dryCells = trays.map(({ dry }) => cell(dry));
    const dry = column("dry", this.pick(language.dry), dryCells);
    if (flushes > 1) {
      const named = this.pick(["Flush # ", "F# "]).replace("# ", "");
      return [
        ...Array.from({ length: flushes }, (_, flush) =>
          column(
            "fresh",
            `${named.replace("Flush", "Flush ")}${flush + 1} ${fresh}`,
            trays.map((tray) => cell(tray.fresh[flush])),
          ),
        ),
        dry,
      ];
    }
    if (unit === "lb" && !inCells && this.chance(2, "lb and oz columns")) {
      const parts = trays.map(({ fresh: [grams] }) => {
        if (grams === undefined) return ["", ""];
        const ounces = Math.round((grams / gramsPerOunce) * 100) / 100;
        return [String(Math.floor(ounces / 16)), decimals(Math.round((ounces % 16) * 100) / 100)];
      });
      return [
        column(
          "fresh",
          `${fresh} lb`,
          parts.map(([pounds]) => pounds!),
          "",
        ),
        column(
          "fresh",
          `${fresh} oz`,
          parts.map(([, ounces]) => ounces!),
          "",
        ),
        dry,
      ];
    }
    return [
      column(
        "fresh",
        fresh,
        trays.map((tray) => cell(tray.fresh[0])),
      ),
      dry,
    ];
  }

  private endings(language: SheetLanguage, trays: ReadonlyArray<TrueTray>): TypedColumn[] {
    const how = this.choose(["outcome column", "losses in notes", "both"] as const);
    const good = this.pick(language.good);
    const outcome = this.text("outcome", language, trays, ({ isLost }) =>
      isLost ? this.pick(language.contaminated) : good,
    );
    const note = this.text("note", language, trays, ({ isLost }) =>
      isLost && how === "losses in notes"
        ? this.pick(language.lossNotes)
        : !isLost && this.random.integer(3) === 0
          ? this.pick(language.goodNotes)
          : "",
    );
    return how === "outcome column" ? [outcome] : how === "both" ? [outcome, note] : [note];
  }
}
