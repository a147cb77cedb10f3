// In the eight languages, from memory.
const repeat =
  /^(?:rep(?:licate|eat|etition)?s?|wdh|wiederholung|répétition|repetición|ripetizione|herhaling|powtórzenie|repetição)$/iu;
const number = /^(?:nr|no|#|trays?|bags?)$/i;

/** Whether a name only tells trays apart that were treated alike: "rep", "Wdh". */
export const isRepeat = (name: string): boolean => repeat.test(name.trim());

/** Whether a name only counts trays: "rep", "Nr", "tray". */
export const countsTrays = (name: string): boolean => isRepeat(name) || number.test(name.trim());
