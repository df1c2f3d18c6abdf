/** An iCalendar stream (RFC 5545, section 8.1): a calendar program fetches it again and again, a browser keeps it as a file. */
export const calendarFile = (stream: string): Response =>
  new Response(stream, {
    headers: {
      "content-type": "text/calendar; charset=utf-8; component=VEVENT",
      "content-disposition": 'inline; filename="plan.ics"',
      "cache-control": "no-store",
    },
  });
