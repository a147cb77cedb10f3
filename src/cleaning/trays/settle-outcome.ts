import type { Issue } from "../../records/issue.ts";
import { isLoss, type Outcome, sourceOf, sourcesOf } from "../../records/tray.ts";
import { fold } from "../../records/words/fold.ts";
import { phrasesOf } from "../../records/words/languages.ts";
import { isVoid } from "../../records/words/void-words.ts";
import { includesContainer } from "../rules/container-included.ts";
import { outcomesExpected as expected, readOutcome } from "../values/outcome-words.ts";
import { addFlag } from "./add-flag.ts";
import { correctedInNote } from "./corrected-in-note.ts";
import type { TrayDraft } from "./tray-draft.ts";
import type { TrayEvidence } from "./tray-evidence.ts";
import { logAtRow, type TrayLog } from "./tray-log.ts";

const noEvidence: TrayEvidence = Object.freeze({});

/** What there is of a tray to weigh or to date. */
type Picked = "weight" | "nothing weighed" | "date" | "neither";

function pickedOf({ freshGrams, dryGrams, bounds, harvestedOn, driedOn, flushes }: TrayDraft, dated: boolean): Picked {
  const weights = [freshGrams, dryGrams].filter((weight) => weight !== undefined);
  if (weights.some((weight) => weight > 0) || bounds.fresh_g !== undefined || bounds.dry_g !== undefined)
    return "weight";
  if (weights.length > 0) return "nothing weighed";
  const hasDate =
    dated ||
    harvestedOn !== undefined ||
    driedOn !== undefined ||
    flushes.some((flush) => flush.harvestedOn !== undefined);
  return hasDate ? "date" : "neither";
}

type Said = Pick<Issue, "rule" | "reason"> & Partial<Issue>;

/** The loss that a note tells of; "asked" where its words may mean something else. */
function lossInNote(note: string | undefined): Outcome | undefined {
  const found = note === undefined ? undefined : readOutcome(note);
  // "fine at first, then binned"
  if (found?.says === "spent" && found.thrownOut && !found.picked) return "discarded";
  if (found === undefined || !isLoss(found.says)) return undefined;
  if (found.queried || found.contradictory || !(found.sure || found.whole)) return "asked";
  return found.says as Outcome;
}

const weighed =
  /(?<!\p{L})(?:weigh\p{L}*|combined|together|gewogen|zusammen|pes\p{L}{1,5}|ensemble|junt[oa]s?|insieme|samen|razem|zważ\p{L}*)\s+(?:\p{L}+\s+)?(?:with|mit|avec|con|met|z|com)\s+(?:\p{L}+\s+)?[#\p{L}]{0,3}\d/iu;
const boxed = /^\W*(?:with|w\/|mit|avec|con|met|z|com)\s+\p{L}+\s*\(?\d+\s*g?\)?$/iu;
const gross = /^\W*(?:weigh\p{L}*\s+)?(?:incl|inkl|inc\.|gross|brutto|bruto|lordo|brut(?!\p{L}))/iu;

/** Where a note begins to name the trays that its own was weighed with; undefined where it names none. */
export const weighedWith = (note: string): number | undefined => weighed.exec(note)?.index;

/** A note that says that something else is in the weight: another tray, or what the mushrooms lay in. */
const saysMoreWeighed = (note: string): boolean =>
  weighed.test(note) || ((gross.test(note) || boxed.test(note)) && includesContainer(note));

const notWeighed = phrasesOf((words) => words.missing["not weighed"])
  .map(fold)
  .filter((phrase) => phrase.includes(" ") && /weig|wog|wieg|pes|zwa/.test(phrase));
/** "forgot to weigh, about as the others": picked, and not "not weighed yet". */
const saysNotWeighed = (note: string): boolean =>
  notWeighed.some((phrase) => new RegExp(`(?<!\\p{L})${phrase}(?!\\p{L})(?! yet)`, "u").test(fold(note)));

interface Settled {
  outcome: Outcome;
  said?: Said;
  /** worth a flag, not only a line of the log */
  flagged?: boolean;
}

const inferred = (outcome: Outcome, why: string): Settled => ({
  outcome,
  said: {
    rule: "outcome-inferred",
    reason: `no outcome recorded: ${outcome === "growing" ? "still growing" : outcome}, because ${why}`,
  },
});

const asked = (rule: string, reason: string, more: Partial<Issue> = {}): Settled => ({
  outcome: "asked",
  flagged: true,
  said: { rule, reason, expected, action: `Type the outcome: ${expected}`, ...more },
});

const notRead = (column: string): Settled =>
  asked("ending-not-read", `the column “${column}” may tell what became of the tray, and it is not read yet`);

/** What a tray with a weight has become, beside what its note says of a loss. */
function despiteNote({ traysInPool, note }: TrayDraft, fromNote: Outcome | undefined): Settled {
  // "A6 green" of A1 to A6
  const ofOne = traysInPool > 1 ? lossInNote(note?.replace(/^\W*\p{L}{0,3}\d+\W*/u, "")) : undefined;
  if (ofOne !== undefined && ofOne !== "asked")
    return asked(
      "loss-in-pool",
      "the note speaks of a loss, and the row is of several trays: how many of them gave its weight is not known",
      { action: "Give each lost tray a row of its own with its outcome, and take it out of this one" },
    );
  if (fromNote === undefined || fromNote === "asked") return inferred("good", "it has a weight");
  const reason = "good, because it has a weight, though the note speaks of a loss";
  return {
    outcome: "good",
    flagged: true,
    said: { rule: "note-against-weight", reason, expected, action: "State the outcome" },
  };
}

/**
 * What a tray with no outcome typed has become: its weight or harvest date decides, then its note, then nothing yet.
 */
function inferOutcome(
  draft: TrayDraft,
  { says, unread = false, dated = false, leftOut = false }: TrayEvidence,
  log: TrayLog,
): Settled {
  const picked = pickedOf(draft, dated);
  const fromNote = lossInNote(draft.note);
  const unreadOutcome = sourcesOf(draft)
    .map(({ file }) => log.unreadOutcome(file))
    .find((name) => name !== "");
  if (unreadOutcome !== undefined) return notRead(unreadOutcome);
  // what it was left out for is asked at the mark
  if (leftOut && !isLoss(fromNote)) return { outcome: "asked" };
  if (picked === "weight") return despiteNote(draft, fromNote);
  if (fromNote !== undefined && fromNote !== "asked" && !unread) {
    const reason = "no outcome recorded: lost, because the note says so";
    // many growers write losses nowhere else; a day of harvest beside it may say something else
    return {
      outcome: fromNote,
      flagged: picked === "date",
      said: { rule: "loss-from-note", reason, expected, action: "State the outcome where that is wrong" },
    };
  }
  if (unread)
    return asked(
      "weight-not-known",
      "a weight or a harvest date was typed that cannot be used, so what became of the tray is not known",
    );
  if (picked === "nothing weighed") return inferred("failed", "it was weighed and gave nothing");
  if (says === "spent") return inferred("discarded", "it was put away and has no weight");
  const beside = log.lossBeside(draft);
  if (beside !== undefined)
    return asked(
      "loss-in-other-column",
      `the column “${beside.column}” speaks of a loss, and nothing else says what became of the tray`,
      { raw: beside.text },
    );
  if (picked === "date") return inferred("good", "it was harvested");
  if (says === "drying") return inferred("good", "it is drying, so it was picked");
  if (fromNote === "asked")
    return asked("note-unclear", "the note may speak of a loss, and nothing else says what became of the tray");
  if (draft.note !== undefined && (saysNotWeighed(draft.note) || readOutcome(draft.note)?.picked === true))
    return asked(
      "picked-in-note",
      "the note says that it was picked, weighed or not, and neither a weight nor a day of harvest says how it went",
    );
  if (isVoid(draft.note ?? "")) return asked("row-void", "the note says that the row is not to be counted");
  return besides(draft, log) ?? inferred("growing", "it has neither weight nor harvest date");
}

/** What else of its sheets may tell what became of a tray of which no cell does. */
function besides(draft: TrayDraft, log: TrayLog): Settled | undefined {
  const first = (tell: (file: string) => string): string | undefined =>
    sourcesOf(draft)
      .map(({ file }) => tell(file))
      .find((text) => text !== "");
  const column = first(log.unreadEnding);
  if (column !== undefined) return notRead(column);
  const raw = first(log.lossBesideRows);
  if (raw === undefined) return undefined;
  return asked(
    "loss-beside-rows",
    "a line beside the rows, or the name of the sheet, speaks of a loss, and nothing else says what became of the tray",
    { raw },
  );
}

/** What a tray has become, its typed outcome weighed against its weights where they cannot both hold. */
function settled(draft: TrayDraft, evidence: TrayEvidence, log: TrayLog): Settled {
  const { outcome } = draft;
  const picked = pickedOf(draft, evidence.dated ?? false);
  const mayBeGood = outcome === undefined || outcome === "good";
  if (mayBeGood && picked === "weight" && draft.note !== undefined && saysMoreWeighed(draft.note))
    return {
      outcome: "asked",
      flagged: true,
      said: {
        rule: "weight-of-more",
        reason: "the note says that more was weighed than this tray's mushrooms, so its weight is not used",
        expected: "the weight of this tray's mushrooms alone",
        action: "Correct the weight and take the words out of the note",
      },
    };
  if (mayBeGood && picked === "weight" && correctedInNote(draft)?.ofOther === "")
    return asked(
      "weight-corrected-in-note",
      "the note gives another number than the cells, so the weight is not used",
      {
        action: "Correct the weight and take the words out of the note",
      },
    );
  if (outcome === undefined && picked === "weight" && isVoid(draft.note ?? ""))
    return asked("row-void", "the note says that the row is not to be counted, so its weight is not used");
  if (outcome === undefined && picked === "neither" && weighed.test(draft.note ?? ""))
    return asked(
      "weighed-with-others",
      "the note says that it was weighed with another tray, so it is not known what it gave",
    );
  if (outcome === "good" && picked === "nothing weighed")
    return asked("good-and-nothing", "said to be good, and weighed at 0: it failed, or was not weighed", {
      action: "Type failed if it gave nothing, or empty the cell of the weight if it was not weighed",
    });
  if (outcome === undefined) return inferOutcome(draft, evidence, log);
  const isPicked = picked === "weight" || evidence.dated === true;
  if (evidence.queried === true && isLoss(outcome) && isPicked)
    return asked(
      "doubted-loss-with-weight",
      "a loss that is in doubt, or may have come after the picking, beside a weight: neither is taken",
    );
  if (outcome === "good" && picked === "neither" && evidence.unread !== true) {
    const fromNote = lossInNote(draft.note);
    if (fromNote !== undefined && fromNote !== "asked")
      return asked(
        "note-against-outcome",
        "said to be good, with neither weight nor day of harvest, and the note speaks of a loss",
      );
  }
  if (outcome === "growing" && evidence.unread === true)
    return asked("growing-with-weight", "said to be growing, beside a weight that cannot be used");
  return { outcome };
}

/** Settles what became of a tray and writes why, where no one typed it plainly. Changes the draft in place. */
export function settleOutcome(draft: TrayDraft, log: TrayLog, evidence: TrayEvidence = noEvidence): void {
  const { outcome, said, flagged = false } = settled(draft, evidence, log);
  draft.outcome = outcome;
  if (said === undefined) return;
  const isRead = said.rule !== "outcome-inferred";
  const source = sourcesOf(draft).find(({ file }) => log.hasOutcomes(file)) ?? (isRead ? sourceOf(draft) : undefined);
  if (source === undefined) return;
  if (flagged) addFlag(draft, said.rule);
  const entry = { raw: isRead ? (draft.note ?? "") : "", result: outcome, ...said } as const;
  logAtRow(log, draft.trayId, source, "outcome", { severity: flagged ? "warning" : "change", ...entry });
}
