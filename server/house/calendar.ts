import ICAL from "ical.js";
import type { Due } from "../../shared/dues/dues.ts";
import { DAY_MS } from "../../shared/house/due.ts";
import { dueLine, duesWords } from "../../shared/words/dues.ts";
import type { Say } from "../../shared/words/say.ts";
import { sha256 } from "../sha256.ts";

// A folded line begins with a space, which the library does not count into the 75 octets.
ICAL.foldLength = 74;

/**
 * Returns every due that has a last day as an event of that whole day (RFC 5545 section 3.6.1). The event of one due
 * keeps its UID, so that a calendar moves it when the day moves.
 */
export function duesCalendar(dues: readonly Due[], say: Say, now: number): string {
  const words = duesWords(say.language);
  const calendar = new ICAL.Component(["vcalendar", [], []]);
  calendar.updatePropertyWithValue("prodid", "-//Chockside//Dues//EN");
  calendar.updatePropertyWithValue("version", "2.0");
  calendar.updatePropertyWithValue("name", words.calendar);
  for (const due of dues) {
    if (due.until === null) continue;
    const { whom, what, source } = dueLine(due, say);
    const event = new ICAL.Component("vevent");
    event.updatePropertyWithValue("uid", `${sha256(due.key).slice(0, 32)}@chockside`);
    event.updatePropertyWithValue("dtstamp", utc(now));
    event.updatePropertyWithValue("dtstart", day(due.until - DAY_MS));
    event.updatePropertyWithValue("dtend", day(due.until));
    event.updatePropertyWithValue("summary", `${whom}: ${what}`);
    event.updatePropertyWithValue("description", [source, words.caution].filter(Boolean).join("\n"));
    event.updatePropertyWithValue("transp", "TRANSPARENT");
    calendar.addSubcomponent(event);
  }
  return `${calendar.toString()}\r\n`;
}

const utc = (ms: number) => ICAL.Time.fromJSDate(new Date(ms), true);

function day(ms: number): ICAL.Time {
  const date = utc(ms);
  date.isDate = true;
  return date;
}
