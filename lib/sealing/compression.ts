import { type AbsKpa, type GaugeKpa, gaugeKpa } from "../units.ts";
import { seaLevelAbsKpa } from "./atmosphere.ts";

/**
 * A compression pressure as the same cylinder would show it in the standard atmosphere at sea level, kPa gauge.
 *
 * The absolute pressure at the end of the stroke is proportional to the absolute pressure of the air drawn in, so
 * (p_gauge + p_air) · p_0/p_air − p_0, which is p_gauge · p_0/p_air. No published table for petrol engines was found; a
 * printed table for one two-stroke diesel falls a little less with altitude (0.738 against 0.700 at 10,000 ft), so far
 * above 1,500 m the correction may overdo it by some per cent. Neither temperature nor cranking speed is corrected for.
 */
export const toSeaLevelKpa = (readKpa: GaugeKpa, ambientAbsKpa: AbsKpa): GaugeKpa =>
  gaugeKpa((readKpa * seaLevelAbsKpa) / ambientAbsKpa);
