// What a command on a book runs, loaded as one: most of it is the same for all of them, and parts of their own take longer to
// find and to link than all of it takes to read.
export { checkBook } from "./command-check.ts";
export { printDue } from "./command-due.ts";
export { startBook } from "./command-new.ts";
export { planOrder } from "./command-order.ts";
export { planTrial } from "./command-plan.ts";
export { printPrices } from "./command-prices.ts";
export { reportOnBook } from "./command-report.ts";
export { watchBook } from "./command-watch.ts";
