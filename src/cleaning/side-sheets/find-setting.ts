import { addTo } from "../../records/grouped.ts";
import type { Issue } from "../../records/issue.ts";
import { logEntry } from "../../records/log-entry.ts";
import type { SettingDefinition } from "../../records/setting.ts";
import { retiredSettings, settingDefinitions } from "../../records/setting-definitions.ts";
import { closestAmong } from "../../records/words/closest-word.ts";
import { plainName } from "./match-side-columns.ts";
import type { StatedSetting } from "./read-setting-value.ts";
import { settingNames } from "./setting-words.ts";

const byName = new Map<string, SettingDefinition>();
for (const definition of settingDefinitions) {
  for (const name of settingNames[definition.property]?.split("|") ?? []) byName.set(plainName(name), definition);
}
for (const definition of settingDefinitions) {
  byName.set(plainName(definition.key), definition);
  byName.set(definition.property.toLowerCase(), definition);
}
const places = new Map([...byName.keys()].map((name, place) => [name, place]));
/** The names in which a word of three letters or more stands. */
const namesWith = new Map<string, string[]>();
for (const name of byName.keys()) {
  for (const word of new Set(name.split(" "))) if (word.length > 2) addTo(namesWith, word, name);
}
const retiredByName = new Map(Object.entries(retiredSettings).map(([key, reason]) => [plainName(key), reason]));
const closestName = closestAmong([...byName.keys()], (name) => byName.get(name)!.key);

/** Whether a text is the name of a setting, or another one it goes by. */
export const isSettingName = (name: string): boolean => byName.has(plainName(name));

/** The key that shares most of its words with an unknown one, for a message. */
function nearestKey(plain: string): string | undefined {
  const shared = new Map<string, number>();
  for (const word of plain.split(" "))
    for (const name of namesWith.get(word) ?? []) shared.set(name, (shared.get(name) ?? 0) + 1);
  let [best, most] = ["", 0];
  for (const [name, count] of shared) {
    if (count > most || (count === most && places.get(name)! < places.get(best)!)) [best, most] = [name, count];
  }
  return byName.get(best)?.key;
}

/** The setting a line names, by meaning or with a small misspelling; what cannot be found, or is no more, is reported. */
export function definitionOf(line: StatedSetting, file: string, issues: Issue[]): SettingDefinition | undefined {
  const plain = plainName(line.key);
  const near = byName.has(plain) ? plain : closestName(plain);
  const definition = near === undefined ? undefined : byName.get(near);
  const about = { file, row: line.row, column: "key", raw: line.key };
  const retired = retiredByName.get(plain);
  if (retired !== undefined) {
    issues.push(
      logEntry({
        ...about,
        rule: "retired-setting",
        severity: "note",
        reason: retired,
        expected: "",
        action: "Nothing needs to change; the line may be removed",
      }),
    );
    return undefined;
  }
  if (definition === undefined) {
    const nearest = nearestKey(plain);
    issues.push(
      logEntry({
        ...about,
        rule: "unknown-setting",
        severity: "warning",
        reason: "there is no setting of this name; the line was not read",
        expected: nearest === undefined ? "a key of the settings reference" : `perhaps ${nearest}`,
        action: "Correct the key, or remove the line",
      }),
    );
    return undefined;
  }
  if (near !== plain) {
    issues.push(
      logEntry({
        ...about,
        result: definition.key,
        rule: "setting-spelling",
        severity: "change",
        reason: "near enough to the name of a setting",
      }),
    );
  }
  return definition;
}
