/**
 * What a printer with a 0.4 mm nozzle asks for, mm. Common practice of makers, not a standard: all assumed. Print one
 * spool first and try it on the shaft.
 */

/** Between parts that slide or are pushed into each other by hand, on each side. */
export const SLIDE_MM = 0.25;
/** Between shaft and bore, on each side: a firm push fit. */
export const PUSH_MM = 0.1;
/** Between parts that turn past each other. */
export const FREE_MM = 0.6;
/** Usual wall: four lines. Nothing is thinner than the least wall: three lines. */
export const WALL_MM = 1.6;
export const LEAST_WALL_MM = 1.2;

/** Density of solid PLA, g/cm3: the 1.24 that generic data sheets give by ASTM D792; coloured ones differ by 5 %. */
export const PLA_G_PER_CM3 = 1.24;
/** Density of spring steel, g/cm3 (material tables). */
export const STEEL_G_PER_CM3 = 7.85;
