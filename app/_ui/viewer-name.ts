import { z } from "zod";

/** The cookie that keeps the viewer's name. */
export const viewerCookie = "borecast-name";

/** The cookie that keeps the viewer's units and formats. */
export const preferencesCookie = "borecast-formats";

export const viewerNameSchema = z
  .string()
  .trim()
  .min(1, "Write the name under which your changes are kept.")
  .max(60, "A name may have up to 60 characters.")
  .regex(/^\P{Cc}*$/u, "A name is one line of text.");
