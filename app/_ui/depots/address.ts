/** The address of a depot's page. */
export const depotAddress = (depot: string): string => `/depots/${encodeURIComponent(depot)}`;
