// Runs the watch on its own, as the command does, so that it can be stopped from outside: BOOK OUT
import { watchBook } from "../../src/cli/command-watch.ts";

await watchBook(process.argv[2]!, { out: process.argv[3]! });
