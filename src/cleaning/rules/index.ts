import { approximateAmount } from "./approximate-amount.ts";
import { boundedAmount } from "./bounded-amount.ts";
import type { CleaningRule } from "./cleaning-rule.ts";
import { commentInCell } from "./comment-in-cell.ts";
import { containerIncluded } from "./container-included.ts";
import { currencySign } from "./currency-sign.ts";
import { decimalComma } from "./decimal-comma.ts";
import { decimalOrThousands } from "./decimal-or-thousands.ts";
import { fraction } from "./fraction.ts";
import { lightCycle } from "./light-cycle.ts";
import { listInCell } from "./list-in-cell.ts";
import { missingValue } from "./missing-word.ts";
import { namedAmount } from "./named-amount.ts";
import { numberWord } from "./number-word.ts";
import { ordinal } from "./ordinal.ts";
import { outcomeInNumber } from "./outcome-in-number.ts";
import { perTray } from "./per-tray.ts";
import { pooledAmount } from "./pooled-amount.ts";
import { quotedCell } from "./quoted-cell.ts";
import { spawnRatio } from "./spawn-ratio.ts";
import { spreadsheetError } from "./spreadsheet-error.ts";
import { stateOfWeight } from "./state-of-weight.ts";
import { sumInCell } from "./sum-in-cell.ts";
import { surroundingSpace } from "./surrounding-space.ts";
import { thousandsMark } from "./thousands-mark.ts";
import { timesInCell } from "./times-in-cell.ts";
import { unusualCharacters } from "./unusual-characters.ts";
import { workedAmount } from "./worked-amount.ts";

/**
 * Every rule for cells of numbers, in the order they are asked. A rule sees what the ones before it left, so whole-cell
 * rules come first, then rules that look at parts, then those that turn typed digits into a plain number.
 */
export const cleaningRules: ReadonlyArray<CleaningRule> = [
  unusualCharacters,
  surroundingSpace,
  quotedCell,
  spreadsheetError,
  missingValue,
  spawnRatio,
  outcomeInNumber,
  containerIncluded,
  stateOfWeight,
  namedAmount,
  pooledAmount,
  perTray,
  numberWord,
  approximateAmount,
  lightCycle,
  workedAmount,
  timesInCell,
  listInCell,
  sumInCell,
  boundedAmount,
  commentInCell,
  currencySign,
  ordinal,
  thousandsMark,
  decimalOrThousands,
  decimalComma,
  fraction,
];
