// The text of a calendar on standard input, what an independent reader finds in it as JSON on standard output.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const require = createRequire(new URL("../pages/", import.meta.url));
const ICAL = require("ical.js").default ?? require("ical.js");

const root = new ICAL.Component(ICAL.parse(readFileSync(0, "utf8")));
for (const zone of root.getAllSubcomponents("vtimezone")) ICAL.TimezoneService.register(zone);

const moment = (time) => ({
  clock: time.toString(),
  zone: time.zone.tzid,
  utc: time.zone.tzid === "floating" ? null : new Date(time.toUnixTime() * 1000).toISOString(),
});
const events = root.getAllSubcomponents("vevent").map((component) => {
  const event = new ICAL.Event(component, { strictExceptions: true });
  return {
    uid: event.uid,
    stamp: component.getFirstPropertyValue("dtstamp").toString(),
    start: moment(event.startDate),
    end: component.hasProperty("dtend") ? moment(event.endDate) : null,
    summary: event.summary,
    description: event.description,
    alarms: component.getAllSubcomponents("valarm").map((alarm) => ({
      action: alarm.getFirstPropertyValue("action"),
      description: alarm.getFirstPropertyValue("description"),
      seconds: alarm.getFirstPropertyValue("trigger").toSeconds(),
    })),
  };
});
const zones = root.getAllSubcomponents("vtimezone").map((zone) => zone.getFirstPropertyValue("tzid"));
console.log(JSON.stringify({ name: root.getFirstPropertyValue("name"), events, zones }));
