/**
 * Edits (insert, delete, replace, swap of neighbours) that turn one word into another.
 * @returns the number of edits, or `limit + 1` when there are more than `limit`
 * @source optimal string alignment; Damerau 1964, Communications of the ACM 7(3):171-176
 * @example editsBetween("wieght", "weight", 2) // 1
 */
export function editsBetween(a: string, b: string, limit: number): number {
  if (Math.abs(a.length - b.length) > limit) return limit + 1;
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    let least = i;
    for (let j = 1; j <= b.length; j++) {
      const replaced = last[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      let edits = Math.min(last[j]! + 1, row[j - 1]! + 1, replaced);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) edits = Math.min(edits, before[j - 2]! + 1);
      row.push(edits);
      least = Math.min(least, edits);
    }
    if (least > limit) return limit + 1;
    before = last;
    last = row;
  }
  return Math.min(last[b.length]!, limit + 1);
}

/** Which letters a word has, a bit each; letters that share a bit only make the bound below weaker. */
function lettersOf(word: string): number {
  let letters = 0;
  for (let at = 0; at < word.length; at++) letters |= 1 << (word.charCodeAt(at) & 31);
  return letters;
}

/** Whether more letters are in the one and not in the other than edits could make up for: the quick way past most words. */
function tooFar(letters: number, others: number, limit: number): boolean {
  let missing = 0;
  for (let left = letters & ~others; left !== 0; left &= left - 1) if (++missing > limit) return true;
  return false;
}

/** Misspellings allowed in a word of a given length: none in short words, where one letter makes another word. */
const editsAllowed = (length: number): number => (length < 5 ? 0 : length < 8 ? 1 : 2);

/**
 * Finds the word of a list that a misspelt word must have meant: near enough, and nearer than any word of another meaning.
 * What has to be known of the list is found once, for all words that are asked about.
 * @param meaning what a listed word stands for; words of one meaning do not compete
 * @returns the look-up; undefined when none is near enough, or two meanings are equally near
 * @example closestAmong(["weight", "height"], (word) => word)("wieght") // "weight"
 */
export function closestAmong(
  words: ReadonlyArray<string>,
  meaning: (word: string) => string,
): (word: string) => string | undefined {
  const listed = words
    .filter(({ length }) => editsAllowed(length) > 0)
    .map((candidate) => ({ candidate, size: candidate.length, others: lettersOf(candidate) }));
  return (word) => {
    const limit = editsAllowed(word.length);
    if (limit === 0) return undefined;
    let best: string | undefined;
    let bestEdits = limit + 1;
    let rivalEdits = Number.POSITIVE_INFINITY;
    const letters = lettersOf(word);
    for (const { candidate, size, others } of listed) {
      if (Math.abs(size - word.length) > limit) continue;
      if (tooFar(letters, others, limit) || tooFar(others, letters, limit)) continue;
      const edits = editsBetween(word, candidate, limit);
      if (edits > limit) continue;
      if (best !== undefined && meaning(candidate) === meaning(best)) {
        if (edits < bestEdits) [best, bestEdits] = [candidate, edits];
      } else if (edits < bestEdits) {
        rivalEdits = bestEdits;
        [best, bestEdits] = [candidate, edits];
      } else {
        rivalEdits = Math.min(rivalEdits, edits);
      }
    }
    return bestEdits < rivalEdits ? best : undefined;
  };
}
