const colour =
  "red|yellow|orange|green|blue|gr[ea]y|pink|purple|brown|black|bold|italics?|highlighted|shaded|colou?red|rot|gelb|grün|blau|grau|rosa|fett|rouge|jaune|vert|bleu|gris|rojo|amarillo|verde|azul|rosso|giallo|blu|rood|geel|groen|blauw|czerwon\\p{L}*|żółt\\p{L}*|zielon\\p{L}*|vermelho|amarelo";
const things =
  "rows?|cells?|trays?|text|font|ones?|lines?|numbers?|zeilen?|zellen?|schrift|lignes?|cellules?|filas?|celdas?|righe|riga|celle|rijen|rij|cellen|wiersze?|komórki|linhas?|células?";
const explained = new RegExp(
  `^\\W*(?:(?:${things}|in|marked|shaded)\\s+){0,3}(?:${colour})(?:\\s+(?:${things}))?\\s*(?:[=:–—-]+|\\b(?:means?|is|are|bedeutet|heißt|signifie|significa|betekent|znaczy)\\b)\\s*(.+)$`,
  "iu",
);

/**
 * What a line says that a colour of cells stands for, which is not seen: "red rows = lost", "yellow: late". The words are
 * those of the eight languages, from memory.
 */
export const meaningOfColour = (line: string): string | undefined => explained.exec(line)?.[1];
