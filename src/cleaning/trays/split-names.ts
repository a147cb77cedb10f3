import { type RowSource, sourceOf } from "../../records/tray.ts";
import { addFlag } from "./add-flag.ts";
import type { PartingFact } from "./parting-facts.ts";
import { type Kinship, kinship, type RowFacts, rowFacts, standAlike } from "./same-tray.ts";
import type { TrayDraft } from "./tray-draft.ts";
import { logAtRow, type TrayLog } from "./tray-log.ts";

const bySource = (one: TrayDraft, other: TrayDraft): number => byPlace(sourceOf(one), sourceOf(other));

const byPlace = (a: RowSource, b: RowSource): number =>
  a!.file === b!.file ? a!.row - b!.row : a!.file < b!.file ? -1 : 1;

/** Rows of one name that are, or may be, one tray. */
class Group {
  readonly rows: TrayDraft[] = [];
  isUnclear = false;
  /** a row that fits the trays of several cooks or days alike */
  isOfSeveral = false;
  /** one row of each that say the same */
  private readonly kinds = new Map<string, RowFacts>();
  private first: RowFacts | undefined;
  private isAlike = true;

  add(facts: RowFacts): void {
    this.rows.push(facts.row);
    this.kinds.set(facts.all, facts);
    this.first ??= facts;
    this.isAlike &&= standAlike(this.first, facts);
  }

  /** Rows that neither a cook nor a day holds to the others of the group, where these have one. */
  looseRows(): RowFacts[] {
    const isLoose = ({ batch, inoculatedOn }: RowFacts): boolean => batch === undefined && inoculatedOn === undefined;
    const loose = [...this.kinds.values()].filter(isLoose);
    return loose.length < this.kinds.size ? loose : [];
  }

  /** Whether its tray was started after a row was picked. */
  isStartedAfter({ harvestDays }: RowFacts): boolean {
    const starts = [...this.kinds.values()].flatMap(({ inoculatedOn = "" }) =>
      inoculatedOn === "" ? [] : [inoculatedOn],
    );
    return starts.some((start) => harvestDays.some((day) => day < String(start)));
  }

  /** Takes out the rows that say the same as one. @returns them */
  leave({ all }: RowFacts, facts: (row: TrayDraft) => RowFacts): TrayDraft[] {
    const left = this.rows.filter((row) => facts(row).all === all);
    this.rows.splice(0, this.rows.length, ...this.rows.filter((row) => !left.includes(row)));
    this.kinds.delete(all);
    return left;
  }

  /** How a row stands to all of the group: two trays where it is to one of them, else unclear where it is to one. */
  kinshipOf(row: RowFacts): Kinship {
    const isAlike = this.isAlike && standAlike(this.first!, row);
    let found: Kinship = "one tray";
    for (const other of this.kinds.values()) {
      const one = kinship(other, row);
      if (one === "two trays" || (one === "unclear" && isAlike)) return one;
      if (one === "unclear") found = one;
    }
    return found;
  }
}

/**
 * Groups by the cook or the day that parts them for sure from rows of another one, so that names used again in each of
 * thousands of cooks need not be compared with all of them.
 */
class GroupsBy {
  private readonly byValue = new Map<string | number, Set<number>>();
  private readonly valued = new Set<number>();
  private readonly open = new Set<number>();

  /** @param partedBy what parts a row for sure from all rows that have another; undefined for a row it does not part */
  constructor(private readonly partedBy: (facts: RowFacts) => string | number | undefined) {}

  add(at: number, facts: RowFacts): void {
    const value = this.partedBy(facts);
    if (value === undefined) {
      if (!this.valued.has(at)) this.open.add(at);
      return;
    }
    this.open.delete(at);
    this.valued.add(at);
    const places = this.byValue.get(value) ?? new Set();
    this.byValue.set(value, places.add(at));
  }

  /** Places of the groups that a row may be of, in their order; undefined where it may be of any. */
  placesOf(facts: RowFacts): number[] | undefined {
    const value = this.partedBy(facts);
    if (value === undefined) return undefined;
    return [...(this.byValue.get(value) ?? []), ...this.open].sort((a, b) => a - b);
  }
}

/** Rows of one name in groups, one for each tray. A row that may belong to a group or not goes into it and is asked about there. */
function groupsOf(rows: ReadonlyArray<TrayDraft>, parting: ReadonlyMap<string, PartingFact>): Group[] {
  const groups: Group[] = [];
  const byCook = new GroupsBy(({ batch, hasResults }) => (hasResults ? batch : undefined));
  const byDay = new GroupsBy(({ inoculatedOn }) => inoculatedOn);
  const factsOf = (row: TrayDraft): RowFacts => rowFacts(row, parting.get(sourceOf(row).file), parting.get(""));
  for (const row of rows) {
    const facts = factsOf(row);
    const places = byCook.placesOf(facts) ?? byDay.placesOf(facts) ?? groups.keys();
    let unclear: number | undefined;
    let sure: number | undefined;
    for (const at of places) {
      const kin = groups[at]!.kinshipOf(facts);
      if (kin === "one tray") {
        sure = at;
        break;
      }
      if (kin === "unclear") unclear ??= at;
    }
    const place = sure ?? unclear ?? groups.push(new Group()) - 1;
    if (sure === undefined && unclear !== undefined) groups[place]!.isUnclear = true;
    groups[place]!.add(facts);
    for (const order of [byCook, byDay]) order.add(place, facts);
  }
  return groups.length === 1 ? groups : [...groups, ...ofSeveral(groups, (row) => factsOf(row))];
}

/**
 * Rows without cook and day that could be of several groups, each taken out of its own: which tray they tell of is asked,
 * unless all others were started after it was picked.
 */
function ofSeveral(groups: ReadonlyArray<Group>, factsOf: (row: TrayDraft) => RowFacts): Group[] {
  const found: Group[] = [];
  for (const group of groups) {
    for (const facts of group.looseRows()) {
      const fits = (other: Group): boolean => other === group || other.kinshipOf(facts) === "one tray";
      const candidates = groups.filter((other) => fits(other) && !other.isStartedAfter(facts));
      const [only] = candidates;
      if (only === undefined || (only === group && candidates.length === 1)) continue;
      for (const row of group.leave(facts, factsOf)) {
        const own: Group = candidates.length === 1 ? only : new Group();
        own.add(factsOf(row));
        if (own === only) continue;
        own.isOfSeveral = true;
        found.push(own);
      }
    }
  }
  return found;
}

const baseName = (file: string): string =>
  file
    .split("/")
    .at(-1)!
    .replace(/\.[^.\s]+(?= > |$)/, "");

const first = (rows: ReadonlyArray<TrayDraft>, property: "batch" | "inoculatedOn"): string | undefined =>
  rows.find((row) => row[property] !== undefined)?.[property];

/** What tells groups of one name apart: their cooks, else their days of inoculation, what parts their sheet, or their files. */
function markOf(
  groups: ReadonlyArray<TrayDraft[]>,
  parting: ReadonlyMap<string, PartingFact>,
): (group: TrayDraft[]) => string | undefined {
  const ways: ((group: TrayDraft[]) => string | undefined)[] = [
    (group) => first(group, "batch"),
    (group) => first(group, "inoculatedOn"),
    ([one]) => parting.get(sourceOf(one!).file)?.(one!),
    (group) => baseName(sourceOf(group[0]!).file),
  ];
  const apart = ways.find((way) => {
    const marks = groups.map(way);
    return !marks.includes(undefined) && new Set(marks).size === groups.length;
  });
  return apart ?? markOfRow;
}

const markOfRow = ([one]: TrayDraft[]): string => `row ${sourceOf(one!).row} of ${baseName(sourceOf(one!).file)}`;

function askOfWhich(row: TrayDraft, raw: string, log: TrayLog): void {
  const rule = "name-of-several-trays";
  addFlag(row, rule);
  logAtRow(log, row.trayId, sourceOf(row), "tray_id", {
    ...{ rule, severity: "warning", raw },
    reason: "several trays have this name, and nothing says which of them the row is of: it is of none of them",
    expected: "the cook of each row, or its day of inoculation",
    action: "Type the tray's cook in a column batch of this sheet too",
  });
}

/** Which weights a row tells, and whether of a day. */
const weighs = ({ flushes }: TrayDraft): ReadonlyArray<"freshGrams" | "dryGrams"> =>
  (["freshGrams", "dryGrams"] as const).filter((weight) => flushes.some((flush) => flush[weight] !== undefined));

/** Pickings of one tray on different days without numbers are its flushes, in the order of their days. */
function numberByDay(all: ReadonlyArray<TrayDraft>, log: TrayLog): void {
  const rows = all.filter(({ flushes }) => flushes.some(({ harvestedOn }) => harvestedOn !== undefined));
  // rows of other sheets may tell how the tray was set up, or what all its flushes weighed dry
  const inDays = new Set(rows.flatMap(weighs));
  if (all.some((row) => !rows.includes(row) && weighs(row).some((weight) => inDays.has(weight)))) return;
  const flushes = rows.map((row) => (row.flushes.length === 1 ? row.flushes[0]! : undefined));
  const days = flushes.map((flush) => (flush?.number === 0 ? flush.harvestedOn : undefined));
  const weighed = days.filter((_, index) => weighs(rows[index]!).length > 0);
  const order = [...new Set(days)].sort();
  if (order.length < 2 || days.includes(undefined) || new Set(weighed).size < weighed.length) return;
  for (const [index, row] of rows.entries()) {
    const number = order.indexOf(days[index]!) + 1;
    flushes[index]!.number = number;
    logAtRow(log, row.trayId, sourceOf(row), "flush", {
      rule: "flush-by-day",
      severity: "change",
      result: String(number),
      reason: "several rows of one tray, picked on different days: its flushes in the order of those days",
    });
  }
}

function logSpelling(rows: ReadonlyArray<TrayDraft>, name: string, log: TrayLog): void {
  for (const row of rows) {
    if (row.trayId === name) continue;
    logAtRow(log, name, sourceOf(row), "tray_id", {
      rule: "name-spelling",
      severity: "change",
      raw: row.trayId,
      result: name,
      reason: "differs from another row's name only in case, spaces, hyphens or leading zeros: one tray",
    });
    row.trayId = name;
  }
}

/**
 * Rows of one name, parted into trays. Where there are several trays of the name, each is called by what tells it from the
 * others: "T1 (A)", "T1 (april)".
 * @param rows two or more whose names differ at most in spelling
 * @param parting what parts the trays of a sheet, by file
 * @returns the rows of each tray, under the name of the tray
 */
export function splitByTray(
  rows: ReadonlyArray<TrayDraft>,
  log: TrayLog,
  parting: ReadonlyMap<string, PartingFact>,
): TrayDraft[][] {
  const parted = groupsOf([...rows].sort(bySource), parting);
  const groups = parted.map((group) => group.rows);
  const name = groups[0]![0]!.trayId;
  for (const group of groups) logSpelling(group, name, log);
  if (groups.length > 1) {
    const mark = markOf(
      parted.flatMap(({ isOfSeveral, rows: own }) => (isOfSeveral ? [] : [own])),
      parting,
    );
    for (const { rows: group, isOfSeveral } of parted) {
      const own = `${name} (${isOfSeveral ? markOfRow(group) : mark(group)})`;
      for (const row of group) row.trayId = own;
      if (isOfSeveral) {
        askOfWhich(group[0]!, name, log);
        continue;
      }
      logAtRow(log, own, sourceOf(group[0]!), "tray_id", {
        rule: "name-used-twice",
        severity: "note",
        raw: name,
        result: own,
        reason: "several trays have this name, and their cook, dates, file or another fact of theirs tells them apart",
        expected: "a name of its own for every tray of the book",
        action: "If they are one tray, correct the facts that differ",
      });
    }
  }
  // days in sheets that nothing holds together may be of two trays
  for (const group of parted) if (!group.isUnclear) numberByDay(group.rows, log);
  return groups;
}
