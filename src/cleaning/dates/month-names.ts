const names: ReadonlyArray<string> = [
  "jan january januar jän jänner janv janvier ene enero gen gennaio januari",
  "feb february februar févr fév février febrero febbraio februari",
  "mar march mär märz mrz mars marzo maart mrt",
  "apr april avr avril abr abril aprile",
  "may mai mayo mag maggio mei",
  "jun june juni juin junio giu giugno",
  "jul july juli juil juillet julio lug luglio",
  "aug august août aou ago agosto augustus",
  "sep sept september septembre septiembre set settembre",
  "oct october okt oktober octobre octubre ott ottobre",
  "nov november novembre noviembre",
  "dec december dez dezember déc décembre dic diciembre dicembre",
];

const unaccented = (text: string): string => text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase();

const months = new Map<string, number>();
names.forEach((line, index) => {
  for (const name of line.split(" ")) months.set(unaccented(name), index + 1);
});

/** The month, 1 to 12, that a name or abbreviation stands for in English, German, French, Spanish, Italian or Dutch. */
export const monthNamed = (name: string): number | undefined => months.get(unaccented(name.replace(/\.$/, "")));
