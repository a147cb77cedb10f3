import { fileName } from "../../records/file-stem.ts";
import { plainName } from "./match-side-columns.ts";

/** Columns of a temperature log, by index. */
export interface LogColumns {
  /** date and time, or the date alone */
  date: number;
  /** the time of day, where it stands apart */
  clock?: number;
  chamber?: number;
  /** one column of temperatures, or one for each chamber */
  temperatures: { index: number; header: string; unit: "" | "C" | "F"; chamber?: string }[];
  unread: number[];
}

// in the eight languages, from memory
const temperatureWord = /\btemp(?:eratur\w*)?s?\b|\bcelsius\b|\bfahrenheit\b|\bdeg(?:rees)? ?[cf]\b/;
const notMeasured =
  /\b(?:set ?point|target|dew|alarm|min(?:imum)?|max(?:imum)?|high|low|humid\p{L}*|rh|setting|limit)\b/u;
const chamberWord =
  /^(?:chamber|room|tent|zone|sensor|device|probe|location|place|fridge|incubator|logger|name|where|sensor name|device name)$/;
const oneChamber = /^(?:chamber|room|tent|zone|sensor|probe|fridge|incubator)\b ?\p{L}?\d*$/u;
const dateWord = /^(?:date|day|datum|fecha|on)$/;
const clockWord = /^(?:time|clock|time of day|hour|uhrzeit|zeit|heure|hora|ora|tijd|godzina|at)$/;
const momentWord =
  /^(?:time ?stamp|date ?time|date and time|date time \p{L}+|time \p{L}+|time|when|logged(?: at| on)?|recorded(?: at| on)?|measured(?: at| on)?|moment|datetime \p{L}+|time ?stamp .*|created at|reading time|date|day|zeit|zeitpunkt|zeitstempel|datum zeit|horodatage|date heure|fecha hora|data ora|tijd|tijdstip|czas|data|data hora)$/u;

const scales = (
  [
    ["F", "fahrenheit"],
    ["C", "celsius"],
  ] as const
).map(([unit, word]) => ({
  unit,
  is: new RegExp(`°\\s?${unit}\\b|\\b${word}\\b|(?:^|[([\\s_,/])(?:deg\\.?)?${unit}[)\\]]?\\s*$`, "i"),
}));

const unitOf = (header: string): "" | "C" | "F" => scales.find(({ is }) => is.test(header))?.unit ?? "";

/** What a header of temperatures names besides: "Tent 2 temp (°C)" names "Tent 2". */
function chamberIn(header: string): string | undefined {
  const rest = header
    .replace(/[([].*?[)\]]/g, " ")
    .replace(/[_,:;/-]/g, " ")
    .replace(
      /°\s?[cf]\b|\b(?:temp(?:erature)?s?|celsius|fahrenheit|deg(?:rees)?|reading|value|air|in|of|the)\b\.?/gi,
      " ",
    )
    .replace(/(?:^|\s)[cf]\s*$/i, " ")
    .replace(/\s+/g, " ")
    .trim();
  return rest === "" || /^#?\d$/.test(rest) ? undefined : rest;
}

/** Finds the columns of a temperature log by their headers; undefined where a date or a temperature is missing. */
export function logColumns(header: ReadonlyArray<string>): LogColumns | undefined {
  const plain = header.map(plainName);
  const temperatures: LogColumns["temperatures"] = [];
  const unread: number[] = [];
  const chambers: LogColumns["temperatures"] = [];
  let date: number | undefined;
  let clock: number | undefined;
  let chamber: number | undefined;
  const hasDate = plain.some((name) => dateWord.test(name));
  plain.forEach((name, index) => {
    const typed = header[index]!;
    const unit = unitOf(typed);
    if (notMeasured.test(name)) unread.push(index);
    else if (temperatureWord.test(name) || (unit !== "" && !momentWord.test(name))) {
      temperatures.push({ index, header: typed, unit });
    } else if (hasDate && clock === undefined && clockWord.test(name)) clock = index;
    else if (date === undefined && (hasDate ? dateWord.test(name) : momentWord.test(name))) date = index;
    else if (chamber === undefined && chamberWord.test(name)) chamber = index;
    else if (oneChamber.test(name)) chambers.push({ index, header: typed, unit, chamber: typed.trim() });
    else if (name !== "") unread.push(index);
  });
  // columns of nothing but chambers, in a log of temperatures, are their temperatures
  if (temperatures.length === 0) temperatures.push(...chambers);
  else unread.push(...chambers.map(({ index }) => index));
  if (date === undefined || temperatures.length === 0) return undefined;
  if (temperatures.length > 1) {
    for (const column of temperatures) {
      const named = column.chamber ?? chamberIn(column.header);
      if (named !== undefined) column.chamber = named;
    }
    const names = temperatures.map((column) => column.chamber?.toLowerCase() ?? "");
    // columns that nothing tells apart are two readings of one thing: only the first is read
    if (new Set(names).size < names.length) unread.push(...temperatures.splice(1).map(({ index }) => index));
  }
  return {
    date,
    ...(clock === undefined ? {} : { clock }),
    ...(chamber === undefined ? {} : { chamber }),
    temperatures,
    unread,
  };
}

/** The chamber a log's file name speaks of: "logs/temperature-tent-2.csv" is "tent 2"; undefined where it names none. */
export function chamberOfFile(file: string): string | undefined {
  const [path = "", sheet = ""] = file.split(" > ");
  const name = fileName(path).replace(/\.[^.]*$/, "");
  const strip = (text: string) =>
    text
      .replace(/\d{4}[-_.]?\d{2}([-_.]?\d{2})?/g, " ")
      .replace(/[_\-.]+/g, " ")
      .replace(
        /\b(?:temp(?:erature)?s?|logs?|logger|sensor|data|export|readings?|history|sheet ?\d*|csv|from|to|of|the)\b/gi,
        " ",
      )
      .replace(/\s+/g, " ")
      .trim();
  const found = strip(name) || strip(sheet);
  return /\p{L}/u.test(found) ? found : undefined;
}
