/** Common practice, no source: trays treated alike differ with a coefficient of variation of 10 to 25 %. */
export const usualTrayCv = 0.18;
/** Degrees of freedom that this counts for beside a book's own trays. */
export const usualTrayDf = 4;
