/**
 * Share of the variance that lies between cooks, where these are too few to tell: of what kept trays give, and of whether trays
 * are lost. Common practice, no source.
 */
export const supposedLikeness = { kept: 0.3, loss: 0.05 };
