/** Words between an amount and the one thing it is for, in eight languages, as a pattern's alternatives: "30 per kg", "pro Schale", "za kg". */
export const perWords = "per|pro|je|par|por|al|na|za";
