import type { Remark, RemarksSay } from "../records/sheet.ts";
import { fold } from "../records/words/fold.ts";
import { phrasesOf } from "../records/words/languages.ts";
import { remarkBeside } from "./remark-beside.ts";
import { includesContainer } from "./rules/container-included.ts";

type WeightRemark = NonNullable<RemarksSay["weights"]>;

const words = (list: ReadonlyArray<string>): string => [...new Set(list)].join("|");
// In the eight languages, from memory.
const weighing =
  /\b(?:weigh\w*|weights?|gewicht\w*|gewogen|wieg\w*|poids|pese\w*|pesos?|pesi|pesa[td]\w*|weeg\w*|mas[ay]|wag[ai]|wazon\w*)\b/;
const mass = /\d\s*(?:g|gr|grams?|gramm|oz|kg)\b/i;
const takenOff =
  /\b(?:minus|less|tare|tara|tarra|subtract\w*|deduct\w*|abz(?:uglich|iehen|ug)|moins|menos|meno|odjac|descontar|detraire)\b/;
const isNet =
  /\b(?:net|netto|neto|netta|tared|already|taken off|abgezogen|schon|bereits|deduite?s?|deja|descontad[oa]s?|ya|gia|sottratt[oa]|afgetrokken|al|odjet[ae]|juz|ja)\b/;
/** "Weights are for two trays": with a number higher than three it is how many there are. */
const several = new RegExp(
  `\\b(?:for|of|from|per|each|fur|je|von|pour|de|par|por|para|di|voor|van|dla|na|both|pairs)\\s+(?:of\\s+)?(?:[23]|two|three|zwei|drei|deux|trois|dos|tres|due|tre|twee|drie|dwie|dwoch|trzy|duas)\\s+(?:${words(phrasesOf(({ tray }) => tray))})\\p{L}{0,2}\\b`,
  "u",
);
const scales = "(?:scales?|waage|balance|bascula|bilancia|weegschaal|waga|balanca)";
const scale = new RegExp(`\\b${scales}\\b`);
const isOff =
  /\b(?:high|low|out|off|over|under|heavy|light|wrong|too|more|less|falsch|viel|wenig|trop|moins|plus|mas|menos|mal|troppo|meno|piu|veel|weinig|mais|demais|za)\b/;
const dry =
  /\b(?:dry|dried|drying|trocken\w*|getrocknet\w*|sec|secs|seches|sechee?s?|sec[oa]s?|secc[hi]\w*|droog\w*|gedroogd\w*|such[aey]\w*|suszon\w*)\b/;
const orFresh =
  /\b(?:fresh|wet|not|un\w*|before|frisch\w*|nicht|vor|frais|avant|fresc\w*|antes|prima|vers|niet|voor|swiez\w*|przed|nie)\b/;
/** A scale that is wrong, however much: "scale off", "Waage defekt". */
const wrong =
  "off|out|wrong|faulty|broken?|acting up|battery|stuk|nicht geeicht|drift\\w*|uncalibrated|not (?:calibrated|zeroed|tared)|falsch|defekt|kaputt|daneben|verstellt|spinnt|ungenau|fauss\\w*|deregle\\w*|casse\\w*|mal|rot[ao]|descalibrad\\w*|starat\\w*|rott[ao]|kapot|ontregeld|verkeerd|zepsut\\w*|zle|errad\\w*|quebrad\\w*|desregulad\\w*";
const wrongScale = new RegExp(`\\b(?:${scales}(?: \\w+){0,3} (?:${wrong})|(?:${wrong}) ${scales})\\b`);
/** Whether a note says that the scale was wrong. */
export function isScaleOff(text: string): boolean {
  const folded = fold(text);
  return wrongScale.test(folded) || (mass.test(text) && scale.test(folded) && isOff.test(folded));
}
/** Whether a folded text speaks of weights or weighing. */
export const speaksOfWeighing = (folded: string): boolean => weighing.test(folded);

/**
 * What a line beside a table says of its weights that makes them others than they stand there: "All weights incl. 45 g box",
 * "minus 45 g for the box", "weights are for two trays", "all weights are dry".
 * A line that speaks of a container and of no weight says nothing.
 */
function saysOfWeights(text: string): WeightRemark["says"] | undefined {
  const folded = fold(text);
  if (isNet.test(folded)) return undefined;
  if (mass.test(text) && scale.test(folded) && isOff.test(folded)) return "scale";
  const isOfWeight = weighing.test(folded);
  if (isOfWeight && several.test(folded)) return "several trays";
  const isAlong =
    includesContainer(text) && (isOfWeight || mass.test(text) || /\b(?:incl|inkl|gross|brutto)/.test(folded));
  if (isAlong || (takenOff.test(folded) && mass.test(text))) return "container";
  return isOfWeight && dry.test(folded) && !orFresh.test(folded) ? "dry weights" : undefined;
}

/** The first line beside a table that says so of its weights. */
export const weightRemark = (remarks?: ReadonlyArray<Remark>): WeightRemark | undefined =>
  remarkBeside(remarks, saysOfWeights);
