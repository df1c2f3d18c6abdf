/** Letters that a name may have: of a unit, an engine, a depot, a person. Alone, for the browser needs nothing beside it. */
export const longestName = 200;
