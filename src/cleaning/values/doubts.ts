import type { Tray } from "../../records/tray.ts";
import { meaningsOf } from "../../records/words/field-phrases.ts";
import { flushInHeader } from "../../records/words/flush-words.ts";
import { fold } from "../../records/words/fold.ts";
import { saysNothing, wordsOf } from "../../records/words/header-words.ts";
import { phrasesOf } from "../../records/words/languages.ts";
import { isScaleOff, speaksOfWeighing } from "../weight-remarks.ts";
import { isFilling } from "./outcome-phrases.ts";
import { readOutcome } from "./outcome-words.ts";

// stems and words in the eight languages, from memory
const perhaps =
  /\b(?:maybe|perhaps|possibly|probably|could|might|may|not sure|vielleicht|evtl|eventuell|vermutlich|wohl|konnte|peut etre|pourrait|quizas?|tal vez|podria|forse|potrebbe|misschien|mogelijk|moze|chyba|talvez|pode|poderia)\b/g;
const about =
  /\b(?:guess\w*|around|geraten|gegokt|estim\w*|est|appro\w*|aprox\w*|roughly|ballpark|eyeball\w*|ge?schat\w*|schatz\w*|ungefahr|ca|circa|environ|a ojo|a olho|a occhio|stima\w*|ongeveer|okolo|szacun\w*|oszacow\w*|na oko)\b/g;
/** More culture than the cell may say, or not all that grew. */
const moreOrLess =
  /\b(?:double dos\w*|dosed twice|re ?inoculat\w*|inoculated again|injected (?:again|twice)|topped up|nachbeimpft|doppelt beimpft|reinocul\w*|only weighed|weighed only|nur \w+ gewogen)\b/;
/** Mushrooms beside those that were weighed: "some left on the block". */
const leftUnpicked =
  /\b(?:left|still|remain\w*|more|rest|some|few|noch|ubrig|reste\w*|encore|queda\w*|rimast\w*|nog|zosta\w*|fic(?:ou|aram)) (?:\S+ ){0,2}(?:on|am|auf|im|sur|en|sul\w*|op|na|no) (?:\S+ )?(\p{L}+)/u;
const unweighed =
  /\b(?:un ?weighed|(?:not|before|without|forgot to|did ?n o?t) weigh\w*|(?:nicht|ohne|vor dem|un|niet) ?(?:ge)?w[ieo]+gen|(?:non|pas|sans|avant de|sin|no|senza|nao|sem) pes[ae]\w*|nie ?z?wazon\w*)\b/;
/** Of a flush that is still to be picked. */
const toCome =
  /\b(?:coming|to come|pinning|pins|pending|on (?:its|the) way|start(?:ing|ed)|komm\w*|steht (?:noch )?aus|wachst|a venir|arriv\w*|en cours|por venir|viene|en camino|in corso|komt|onderweg|rosnie|w drodze|por vir|a caminho)\b/;
const others = /\b(?:rest\w{0,4}|others?|remaind\w*)\b/;
/** Of a dose that was another one: "only 8 ml", "actually 12 ml", "spilled 2 ml". */
const otherwise =
  /\b(?:only|just|actually|really|instead|spill\w*|leak\w*|meant|gave|nur|eigentlich|statt|verschutt\w*|seulement|en fait|au lieu|renvers\w*|solo|solamente|en realidad|derram\w*|soltanto|in realta|invece|rovesciat\w*|alleen|eigenlijk|gemorst|tylko|wlasciwie|rozla\w*|apenas|na verdade|em vez)\b/;
const ofWater = /\b(?:water|wasser|eau|agua|acqua|wod[ay]|mist\w*|spray\w*)\b/;
const volume = /(?<![\d.,])(\d+(?:[.,]\d+)?)\s*(?:ml|cc)(?!\p{L})/giu;
/** Of an amount, not of a tray. */
const unsure =
  /\b(?:un(?:certain|sure|reliable|clear|sicher|genau|klar)|not (?:reliable|exact)|nicht genau|rough|grob|off|wrong|falsch|incert\w*|inciert\w*|onzeker|niepewn\w*|imprecis\w*|du[bdv]\w*os[oa])\b/g;
const fromMemory = /\b(?:from memory|gedachtnis|de memoire|de memoria|a memoria|uit het hoofd|z pamieci)\b/;
const noTare = /\b(?:without|forgot(?: to)?|no|ohne|sans|sin|senza|zonder|bez|sem) tar[ae]\w*/;
const damp = /\b(?:damp|moist|feucht\w*|humid\w*|humed\w*|umid\w*|vochtig|wilgotn\w*)\b/;
const partly =
  /\b(?:half|part|partly|partial\w*|halb|halfte|teil\w*|moitie|partiel\w*|mitad|parcial\w*|meta|parzial\w*|parte|helft|deels|polow\w*|czesc\w*|metade)\b/;
const some = /\b(?:some|a few|a bit|einige|etwas|quelques|algun\w*|alcun\w*|enkele|kilka)\b/;
const gone =
  /\b(?:lost|spill\w*|dropped|ate|eaten|fell|verloren|gegessen|perdu\w*|mange\w*|perdid\w*|comid\w*|pers[aeio]|mangiat\w*|gegeten|zgubion\w*|zjedzon\w*)\b/;
const swapped =
  /\b(?:swap\w*|switch\w*|mix(?:ed)? ?up|confus\w*|vertausch\w*|verwechsel\w*|melang\w*|interverti\w*|echang\w*|intercambi\w*|confundid\w*|scambi\w*|verwissel\w*|zamien\w*|pomyl\w*|trocad\w*)\b/g;
const illegible =
  /\b(?:unreadable|illegible|smudged|unleserlich|illisible|ilegi\w*|illeggibil\w*|onleesbaar|nieczyteln\w*|(?:un|mis)label\w*)\b/;
const label = /\b(?:tags?\b|label|etikett|etiquet|etichett|etiket|etykiet|rotul)/;
const labelGone =
  /\b(?:missing|lost|gone|off|wrong|fehlt|abgefallen|mancan\w*|ontbreekt|sin|sem|falsch|manqu\w*|perdu\w*|perdid\w*|pers[ao]|kwijt|verkeerd|brak)\b/;
const otherTray =
  /\b(?:with|w|mit|avec|con|met|z|com|and|und|et|y|e|en|i)(?: \p{L}+)? (?:\p{L}{1,2} ?)?\d{1,3}\b(?! ?(?:ml|k?g|oz|c|%|d))/u;
const flushWords: ReadonlySet<string> = new Set(phrasesOf((list) => list.flushes));
const joining = /^(?:be|is|or|have|sein|oder|etre|ou|ser|o|essere|zijn|of|byc|lub)?$/;
const trayWords = phrasesOf(({ tray }) => tray);
const isTrayWord = (word: string): boolean =>
  trayWords.some((one) => word.startsWith(one) && word.length <= one.length + 2) || wordsOf(word)[0] === "number";
const isGrownOn = (word: string): boolean => isTrayWord(word) || /^(?:substrat|blo[ck]|block)/.test(word);
const isCode = (word: string): boolean => /^(?![dw]\d)\p{L}{1,2}\d{1,3}$/u.test(word);
const places: ReadonlySet<string> = new Set(["shelf", "load_position", "chamber"]);
const ofPlace = (word: string): boolean => meaningsOf(wordsOf(word)).some(({ field }) => places.has(field));
const amount = new Set("weight fresh wet dry harvest yield dose inoculum lc volume amount".split(" "));
const isAmount = (word: string): boolean => wordsOf(word).every((one) => amount.has(one));
/** "Too wet" is no weight. */
const namesAmount = (word: string): boolean => isAmount(word) && !["wet", "dry", "fresh"].includes(wordsOf(word)[0]!);
const quantity = /(?<![\p{L}\d])\d+(?:[.,]\d+)?\s*(?:g|gr|grams?|kg|oz|lbs?|ml|cc)(?![\p{L}\d])/giu;

/** Whether a part of a note doubts which tray it is: "maybe swapped with A3", "labels mixed up w/ 4?", "could be tray 7". */
export function doubtsTray(part: string): boolean {
  const said = fold(part);
  const isSwapped = said.search(swapped) >= 0;
  const isDoubted = part.includes("?") || said.search(perhaps) >= 0;
  if (illegible.test(said)) return true;
  if (label.test(said)) return isSwapped || isDoubted || labelGone.test(said);
  if (said.split(" ").some(ofPlace)) return false;
  if (isSwapped && otherTray.test(said)) return true;
  if (!isDoubted && !isSwapped) return false;
  const named = said.replace(perhaps, "").replace(swapped, "").split(" ");
  return (
    (isSwapped || /\d/.test(said)) &&
    named.some((word) => isTrayWord(word) || isCode(word)) &&
    named.every(
      (word) =>
        isTrayWord(word) ||
        isCode(word) ||
        /^\d{0,3}$/.test(word) ||
        joining.test(word) ||
        saysNothing(word) ||
        isFilling(word),
    )
  );
}

/** Whether a part of a note doubts an amount: nothing but a word for it, "about" and amounts; or by how it was weighed. */
export function doubtsAmount(part: string, { dryGrams }: Pick<Tray, "dryGrams">): boolean {
  const said = fold(part);
  const ofWeighing = speaksOfWeighing(said);
  if (
    fromMemory.test(said) ||
    moreOrLess.test(said) ||
    noTare.test(said) ||
    isScaleOff(part) ||
    isDiluted(said) ||
    (ofWeighing && damp.test(said))
  )
    return true;
  const words = said.split(" ");
  const isPicked = ofWeighing || words.some((word) => ["picked", "harvest"].includes(wordsOf(word)[0]!));
  const isPart = partly.test(said);
  if (isPart && isPicked && words.length <= 4) return true;
  if (
    (isPart || some.test(said)) &&
    gone.test(said) &&
    !/\b(?:pins?|days?|power)\b/.test(said) &&
    words.length <= (ofWeighing ? 9 : 6)
  )
    return true;
  if (dryGrams !== undefined && readOutcome(part)?.says === "drying") return true;
  const left = fold(part.replace(quantity, " weight ").replace(/\?/g, " maybe "))
    .replace(about, "~")
    .replace(perhaps, "#")
    .replace(unsure, "#")
    .split(" ");
  return (
    (left.includes("~") || (left.includes("#") && left.some(namesAmount))) &&
    left.every((word) => ["", "#", "~"].includes(word) || isAmount(word) || isFilling(word) || saysNothing(word))
  );
}

/** Whether a part of a note says that its tray got another dose than was typed. */
export function doubtsDose(part: string, { inoculumMillilitres: dose }: Pick<Tray, "inoculumMillilitres">): boolean {
  if (dose === undefined || !otherwise.test(fold(part)) || ofWater.test(fold(part))) return false;
  return [...part.matchAll(volume)].some(([, typed]) => Math.abs(Number(typed!.replace(",", ".")) - dose) > 0.05);
}

/**
 * Whether a remark says that not all that grew is in the weight: "some left on the block", "half not weighed", "2nd flush
 * coming" of a tray picked fewer times.
 */
export function isNotAll(remark: string, { flushes }: Partial<Pick<Tray, "flushes">>): boolean {
  const said = fold(remark);
  const place = leftUnpicked.exec(said)?.[1];
  if ((place !== undefined && isGrownOn(place)) || said.includes("more to come")) return true;
  const ofFlush = said.split(" ").some((word) => flushWords.has(word));
  if (ofFlush && toCome.test(said) && (flushInHeader(said)?.flush ?? 2) > (flushes?.length || 1)) return true;
  return unweighed.test(said) && (ofFlush || partly.test(said) || some.test(said) || others.test(said));
}

/** Whether a folded text says that a culture was diluted. */
export const isDiluted = (folded: string): boolean =>
  /\b(?:dilut|verdunn|dilue|diluid|verdund|aangelengd|rozciencz)\w*/.test(folded);

/** A note by its sentences and the parts between commas and brackets. */
export const partsOf = (note: string): string[] =>
  note.split(/[,;!\n()]+|(?<=\p{L}{5})\.(?=\s+\D|$)|\s[-–—]\s/u).filter((part) => /\p{L}/u.test(part));
