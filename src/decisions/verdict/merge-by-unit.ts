import type { PlacedTray } from "./cell-table.ts";
import type { ComparedTray } from "./compared-tray.ts";
import type { Level } from "./decision.ts";

/** Share of trays that must name their cook, day or unit for it to be used. */
const enoughNamed = 0.8;

interface NamedTray {
  tray: ComparedTray;
  /** its cook, or what stands for it */
  name: string;
}

/** Whether enough trays have something written down. */
export function enough(named: number, all: number): boolean {
  return named >= enoughNamed * all - 1e-9;
}

/** What the trays of one unit have. */
interface SharedUnit {
  /** of its first tray */
  level: Level;
  /** whether another tray has another level */
  several: boolean;
  /** the cook it stood in */
  name: string;
  /** other cooks it stood in, as long as its trays have one level */
  others: Set<string> | undefined;
}

/** Units by kind, each kind's by name. */
function unitsOf(trays: ReadonlyArray<NamedTray>): Map<string, Map<string, SharedUnit>> {
  const kinds = new Map<string, Map<string, SharedUnit>>();
  for (const { tray, name } of trays) {
    if (tray.units === undefined) continue;
    for (const kind of Object.keys(tray.units)) {
      let units = kinds.get(kind);
      if (units === undefined) {
        units = new Map();
        kinds.set(kind, units);
      }
      const id = tray.units[kind]!;
      const unit = units.get(id);
      if (unit === undefined) units.set(id, { level: tray.level, several: false, name, others: undefined });
      else if (unit.several) continue;
      else if (unit.level !== tray.level) unit.several = true;
      else if (unit.name !== name) {
        unit.others ??= new Set();
        unit.others.add(name);
      }
    }
  }
  return kinds;
}

/**
 * Cooks joined by a unit (a shelf, a jar) that stood in several of them with one and the same level: what is peculiar to the
 * unit would else count as the level's, again in every cook.
 * @returns the name of the group each cook belongs to, and the cooks that were merged
 * @source union-find: Tarjan 1975, Journal of the ACM 22(2):215-225; the rule is the project's own
 */
export function mergeByUnit(trays: ReadonlyArray<NamedTray>): { nameOf(name: string): string; merged: string[][] } {
  const parent = new Map<string, string>();
  const rootOf = (name: string): string => {
    let root = name;
    while (parent.get(root) !== undefined && parent.get(root) !== root) root = parent.get(root)!;
    for (let at = name; at !== root; ) {
      const next = parent.get(at)!;
      parent.set(at, root);
      at = next;
    }
    return root;
  };
  for (const units of unitsOf(trays).values()) {
    for (const { several, name, others } of units.values()) {
      if (several || others === undefined) continue;
      for (const other of others) parent.set(rootOf(other), rootOf(name));
    }
  }
  if (parent.size === 0) return { nameOf: (name) => name, merged: [] };
  const members = new Map<string, string[]>();
  for (const name of new Set(trays.map((tray) => tray.name))) {
    const root = rootOf(name);
    const list = members.get(root);
    if (list === undefined) members.set(root, [name]);
    else list.push(name);
  }
  return {
    nameOf: (name) => members.get(rootOf(name))!.join("+"),
    merged: [...members.values()].filter((names) => names.length > 1),
  };
}

/** Levels of units by kind and name, of the kinds whose units each have one level, and no more units than `most`. */
function unitsOfOneLevel(
  trays: ReadonlyArray<ComparedTray>,
  most: number,
): [kind: string, units: Map<string, Level>][] {
  const kinds = new Map<string, Map<string, Level>>();
  const out = new Set<string>();
  for (const { units: own = {}, level } of trays) {
    for (const kind of Object.keys(own)) {
      if (out.has(kind)) continue;
      let units = kinds.get(kind);
      if (units === undefined) {
        units = new Map();
        kinds.set(kind, units);
      }
      const before = units.get(own[kind]!);
      if (before === undefined) units.set(own[kind]!, level);
      if (units.size > most || (before !== undefined && before !== level)) out.add(kind);
    }
  }
  return [...kinds].filter(([kind]) => !out.has(kind));
}

const isNamedOnEnough = (trays: ReadonlyArray<ComparedTray>, kind: string): boolean =>
  enough(trays.filter(({ units }) => units?.[kind] !== undefined).length, trays.length);

/** The kinds of unit that carry each level on one unit alone, so that unit and level cannot be separated. */
export function kindsOfOneUnitPerLevel(trays: ReadonlyArray<ComparedTray>): string[] {
  const levelCount = new Set(trays.map(({ level }) => level)).size;
  if (levelCount < 2) return [];
  return unitsOfOneLevel(trays, levelCount)
    .filter(
      ([kind, units]) =>
        units.size === levelCount && new Set(units.values()).size === levelCount && isNamedOnEnough(trays, kind),
    )
    .map(([kind]) => kind);
}

/**
 * Good trays of one cook, with those that shared a unit of one level (the trays of one jar) put together as one value: trays of
 * one unit are no repeats. Of several kinds of unit the one with fewest is taken.
 */
export function unitsAsTrays(trays: ReadonlyArray<PlacedTray>): PlacedTray[] {
  const bare = trays.map(({ tray }) => tray);
  const usable = unitsOfOneLevel(bare, trays.length - 1).filter(([kind]) => isNamedOnEnough(bare, kind));
  usable.sort((a, b) => a[1].size - b[1].size || (a[0] < b[0] ? -1 : 1));
  const kind = usable[0]?.[0];
  if (kind === undefined) return [...trays];
  const sums = new Map<string, { first: PlacedTray; sum: number; count: number }>();
  trays.forEach((placed, i) => {
    const { units: own, value, pooled = 1 } = placed.tray;
    const key = own?.[kind] === undefined ? `tray ${i}` : `unit ${own[kind]}`;
    const before = sums.get(key) ?? { first: placed, sum: 0, count: 0 };
    before.sum += (value as number) * pooled;
    before.count += pooled;
    sums.set(key, before);
  });
  return [...sums.values()].map(({ first, sum, count }) => ({
    tray: { ...first.tray, value: sum / count, pooled: 1 },
    group: first.group,
  }));
}
