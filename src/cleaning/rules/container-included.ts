import { type CleaningRule, keep, unreadable } from "./cleaning-rule.ts";

const included =
  /\b(?:incl(?:uding|\.)?|with|w\/|plus|inc\.?|gross)\s*(?:the\s+)?(?:tare|tray|tub|bag|bowl|dish|plate|container|box|jar|lid|basket|pan)\b|\bgross\b|\bnot tared\b|\bun-?tared\b/i;

/** A weight taken with its container is not the weight of what was in it. */
export const containerIncluded: CleaningRule = {
  code: "container-included",
  kinds: ["mass"],
  apply: (text) =>
    /\d/.test(text) && included.test(text)
      ? unreadable("the weight without its container, such as 310 g", "the weight includes a container")
      : keep,
};
