/** Time zones that this machine knows, UTC first. */
export const timeZones = (): readonly string[] => [
  "UTC",
  ...Intl.supportedValuesOf("timeZone").filter((name) => name !== "UTC"),
];

/** Whether a date can be told in a zone of this name; older names of a zone count as well. */
export function isTimeZone(name: string): boolean {
  try {
    return name !== "" && new Intl.DateTimeFormat("en-GB", { timeZone: name }).resolvedOptions().timeZone !== "";
  } catch {
    return false;
  }
}
