import type { Analysis, AnsweredQuestion, Trial } from "../analysis.ts";
import type { Book } from "../records/book.ts";
import { unflaggedTrays } from "../records/doubtful-trays.ts";
import { Memo } from "../records/memo.ts";
import type { Settings } from "../records/setting.ts";
import { askQuestion } from "./ask-question.ts";
import { trialOf } from "./trial-of.ts";

/** answers kept of one question, so that undoing costs nothing */
const mostKept = 6;

/** Numbers are written in the book's own format, whatever a question looked at. */
const format: ReadonlyArray<keyof Settings> = ["locale", "displayUnits", "currency", "currencyDecimals"];

/** Parts of a trial that not every question looks at; all look at the trays. */
const parts = ["costLines", "products", "unread", "temperatureLog", "issues"] as const;

type Part = (typeof parts)[number];

interface Kept {
  /** the book as it was */
  book: Book;
  looked: ReadonlySet<Part>;
  settings: ReadonlySet<keyof Settings>;
  answer: AnsweredQuestion;
}

interface FollowedSettings {
  settings: Settings;
  /** looked at so far by any question: what one finds worked out already may rest on what another looked at */
  seen: Set<keyof Settings>;
}

/** Settings that note which of them are looked at. */
function followedSettings(given: Settings): FollowedSettings {
  const seen = new Set<keyof Settings>();
  const settings = new Proxy(given, {
    get: (target, property, receiver) => {
      seen.add(property as keyof Settings);
      return Reflect.get(target, property, receiver) as unknown;
    },
    ownKeys: (target) => {
      for (const key of Object.keys(target)) seen.add(key as keyof Settings);
      return Reflect.ownKeys(target);
    },
  });
  return { settings, seen };
}

/** A trial that notes which of its parts are looked at. */
function followedTrial(trial: Trial, looked: Set<Part>): Trial {
  const followed: Trial = { ...trial };
  for (const part of parts) {
    if (trial[part] === undefined) continue;
    Object.defineProperty(followed, part, {
      enumerable: true,
      get: () => {
        looked.add(part);
        return trial[part];
      },
    });
  }
  return followed;
}

/**
 * Answers of a book in its states while it is being changed. A question is asked again only where something it looked at is
 * no longer the very same; what questions share is worked out once.
 */
export class KeptAnswers {
  private readonly kept = new Map<string, Kept[]>();
  private readonly memo = new Memo();

  /** One question's answer taken alone; the very same object while nothing it looked at has changed. */
  ask(analysis: Analysis, book: Book): AnsweredQuestion {
    const known = this.kept.get(analysis.id) ?? [];
    const before = known.find(
      (one) =>
        one.book.trays === book.trays &&
        [...one.looked].every((part) => one.book[part] === book[part]) &&
        [...one.settings].every((name) => one.book.settings[name] === book.settings[name]),
    );
    if (before !== undefined) return before.answer;
    const { settings, seen } = this.memo.once([book.settings], "followed", () => followedSettings(book.settings));
    const looked = new Set<Part>();
    const trial = (trays: Trial["trays"]) => followedTrial(trialOf({ ...book, settings }, trays, this.memo), looked);
    const answer = askQuestion(analysis, trial(book.trays), () => trial(unflaggedTrays(book.trays, this.memo)));
    const now: Kept = { book, looked, settings: new Set([...seen, ...format]), answer };
    this.kept.set(analysis.id, [now, ...known].slice(0, mostKept));
    return answer;
  }
}
