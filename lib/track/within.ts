/** Days within which a limit is foretold to be met. */
export const withinDays = [182, 365, 730] as const;
