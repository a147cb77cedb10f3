import { appendAll } from "../records/append-all.ts";
import { type HarvestFieldKey, harvestField } from "../records/harvest-field.ts";
import type { Issue, LeftOutRow } from "../records/issue.ts";
import { logEntry } from "../records/log-entry.ts";
import { nameKey } from "../records/name-key.ts";
import type { RawTable } from "../records/sheet.ts";
import { withRows } from "../records/with-rows.ts";
import type { ColumnPin } from "./columns/column-plan.ts";
import { freeName, markedFree } from "./columns/free-mark.ts";
import type { MeaningsOf } from "./columns/remembered-meanings.ts";
import { isTreatment } from "./columns/treatment-name.ts";
import { leaveRows } from "./leave-rows.ts";
import { saysEach } from "./rules/per-tray.ts";

/** What a row may be of, instead of a tray: a cook, a jar, a tent, a way of treating trays. */
const words = {
  treatment: "a group",
  batch: "a cook",
  jar: "a jar",
  load: "a load",
  strain: "a strain",
  chamber: "a chamber",
  shelf: "a shelf",
} as const;
type KeyKind = keyof typeof words;

/** Fields of a row that is a tray's, or of several. */
const ofTrays: ReadonlySet<string> = new Set<HarvestFieldKey>([
  ...(["tray_id", "fresh_g", "dry_g", "outcome", "harvested_on", "days_to_harvest", "trays_in_pool", "flush"] as const),
]);
const fields = (...keys: HarvestFieldKey[]): ReadonlySet<string> => new Set(keys);
const ofPlace = fields("fruiting_c", "light_hours", "chamber");
/** What a jar, a strain or a place tells of its trays: a jar's volume and its day are its own. All of a cook or a group. */
const told: Readonly<Partial<Record<KeyKind, ReadonlySet<string>>>> = {
  jar: fields("strain", "culture_generation", "culture_age_days"),
  strain: fields("inoculum_ml", "spawn_pct", "supplement", "supplement_grade"),
  chamber: ofPlace,
  shelf: ofPlace,
};
/** A longer list is none of cooks. */
const mostRows = 500;

/** A name as it is looked up: "Batch A" may be "A". */
const lookedUp = (cell: string): string => nameKey(cell).replace(/^\p{L}{3,}[\s#.:_-]+(?=\S)/u, "");

interface KeyTable {
  table: RawTable;
  kind: KeyKind;
  rows: ReadonlyMap<string, string[]>;
}

/** A table reader that knows what headers mean. */
class KeyTables {
  constructor(private readonly meaningsOf: MeaningsOf) {}

  private fieldsOf(name: string): HarvestFieldKey[] {
    return name === "" ? [] : this.meaningsOf(name).map(({ field }) => field);
  }

  /** The first column that calls what rows are of by its name. */
  private columnOf({ header }: RawTable, kind: KeyKind): number {
    return header.findIndex((name) =>
      kind === "treatment"
        ? isTreatment(name)
        : this.meaningsOf(name).some(({ field, rank }) => field === kind && rank > 1),
    );
  }

  /** Whether a name says that rows are trays; "Trays" of a cook counts them. */
  private tellsOfTrays(name: string): boolean {
    const sure = name === "" || this.counts(name) ? [] : this.meaningsOf(name).filter(({ rank }) => rank > 1);
    return sure.some(({ field }) => ofTrays.has(field));
  }

  private counts(name: string): boolean {
    return this.fieldsOf(name).includes("trays_in_pool");
  }

  /** The rows of a key table that count trays of which no other row tells: they stay; undefined where there are none. */
  left({ table, kind }: KeyTable, others: ReadonlyArray<RawTable>): RawTable | undefined {
    if (!table.header.some((name) => this.counts(name))) return undefined;
    const named = new Set<string>();
    for (const other of others) {
      const column = this.columnOf(other, kind);
      other.forEachRow((cells) => named.add(lookedUp(cells[column] ?? "")));
    }
    let isNone = true;
    const forEachRow: RawTable["forEachRow"] = (visit) =>
      table.forEachRow((cells, row) => {
        if (!named.has(lookedUp(cells[0]!))) visit(cells, row);
      });
    forEachRow(() => (isNone = false));
    return isNone ? undefined : { ...table, forEachRow };
  }

  /** A table of one row a cook, load, jar or group, with nothing of trays in it; undefined for any other. */
  keyTable(table: RawTable): KeyTable | undefined {
    const { header } = table;
    if (header.length < 2 || header.some((name) => this.tellsOfTrays(name))) return undefined;
    const kind = (Object.keys(words) as KeyKind[]).find((one) => this.columnOf(table, one) === 0);
    if (kind === undefined) return undefined;
    const rows = new Map<string, string[]>();
    let count = 0;
    table.forEachRow((cells) => {
      if (++count <= mostRows) rows.set(lookedUp(cells[0]!), cells);
    });
    return count === rows.size && !rows.has("") ? { table, kind, rows } : undefined;
  }

  /** The place of the column of a table most of whose names a key table explains; undefined where it has none. */
  explained(table: RawTable, { kind, rows }: KeyTable): number | undefined {
    const column = this.columnOf(table, kind);
    if (column < 0 || !table.header.some((name) => this.fieldsOf(name).some((field) => ofTrays.has(field))))
      return undefined;
    let [known, others] = [0, 0];
    table.forEachRow((cells) => {
      const name = lookedUp(cells[column]!);
      if (name === "") return;
      if (rows.has(name)) known++;
      else others++;
    });
    return known > others ? column : undefined;
  }

  /** The columns of a key table that another one gets, under names that say no more than they may. */
  given({ table, kind }: KeyTable, other: RawTable): { at: number; name: string }[] {
    // "Inoculated" may be a day or a dose
    const surely = (name: string): HarvestFieldKey[] => (this.fieldsOf(name).length === 1 ? this.fieldsOf(name) : []);
    const there = new Set(other.header.flatMap((name) => [nameKey(name), ...surely(name)]));
    return table.header.flatMap((name, at) => {
      const fields = this.fieldsOf(name);
      if (at === 0 || name === "" || fields.some((field) => field === "note" || ofTrays.has(field))) return [];
      if ([nameKey(name), ...fields].some((one) => there.has(one))) return [];
      const own = told[kind];
      if (own !== undefined) return fields.some((field) => own.has(field)) ? [{ at, name }] : [];
      // grams may be of the whole cook
      const isWeight = fields.some((field) => harvestField(field).kind === "mass");
      return [{ at, name: isWeight && kind !== "treatment" && !saysEach(name) ? markedFree(name) : name }];
    });
  }

  /** A table with what a key table says of its cooks or groups; a lone description stands in place of its mark. */
  joined(table: RawTable, key: KeyTable, column: number): RawTable {
    const given = this.given(key, table);
    const [only] = given;
    const isDescription = key.kind === "treatment" && given.length === 1 && this.fieldsOf(only!.name).length === 0;
    return withRows(
      table,
      isDescription ? table.header : [...table.header, ...given.map(({ name }) => name)],
      (cells) => {
        const row = key.rows.get(lookedUp(cells[column]!));
        if (!isDescription) cells.push(...given.map(({ at }) => row?.[at] ?? ""));
        else if (row !== undefined) cells[column] = row[only!.at]!;
        return cells;
      },
    );
  }
}

/**
 * Sheets of one row a cook, load, jar or group ("Batch, Strain, LC ml"), beside one of trays that names these: what they say
 * holds for each of their trays, and their rows are no trays.
 */
export function withKeyTables(
  mayJoin: boolean,
  tables: ReadonlyArray<RawTable>,
  pins: ReadonlyArray<ColumnPin>,
  meaningsOf: MeaningsOf,
): { kept: RawTable[]; issues: Issue[]; leftOut: LeftOutRow[] } {
  const [issues, leftOut]: [Issue[], LeftOutRow[]] = [[], []];
  let kept = [...tables];
  const reader = new KeyTables(meaningsOf);
  for (const table of mayJoin && tables.length > 1 ? tables : []) {
    const key = pins.some(({ header }) => table.header.includes(header)) ? undefined : reader.keyTable(table);
    const places = kept.map((other) =>
      key === undefined || other === table ? undefined : reader.explained(other, key),
    );
    const at = places.findIndex((place) => place !== undefined);
    if (key === undefined || at < 0) continue;
    const given = reader.given(key, kept[at]!).map(({ name }) => `“${freeName(name)}”`);
    const reason = `each row is of ${words[key.kind]}, not of a tray`;
    issues.push(
      logEntry({
        ...{ file: table.file, rule: "key-sheet", severity: "note" },
        reason: `${reason}: ${given.length === 0 ? "it says nothing that" : `its ${given.join(", ")} hold${given.length === 1 ? "s" : ""} for the trays that`} “${kept[at]!.file}” ${given.length === 0 ? "does not say" : `has of ${words[key.kind].replace("a ", "that ")}`}`,
        action: "State joined_cells = ignore in settings.csv if that is wrong",
        setting: "joined_cells",
      }),
    );
    const left = reader.left(
      key,
      kept.filter((_, index) => places[index] !== undefined),
    );
    const stays = new Set<number>();
    left?.forEachRow((_, row) => stays.add(row));
    const own: LeftOutRow[] = [];
    leaveRows(table, reason, own);
    appendAll(
      leftOut,
      own.filter(({ row }) => !stays.has(row)),
    );
    kept = kept.flatMap((other, index) =>
      other === table ? (left ?? []) : [places[index] === undefined ? other : reader.joined(other, key, places[index])],
    );
  }
  return { kept, issues, leftOut };
}
