import { savedAs } from "./file-name.ts";

/**
 * An iCalendar stream (RFC 5545, section 8.1): a calendar program fetches it again and again, a browser keeps it as a file.
 * `name`: of that file, without its ending.
 */
export const calendarFile = (stream: string, name: string): Response =>
  new Response(stream, {
    headers: {
      "content-type": "text/calendar; charset=utf-8; component=VEVENT",
      "content-disposition": savedAs(`${name}.ics`, "inline"),
      "cache-control": "no-store",
    },
  });
