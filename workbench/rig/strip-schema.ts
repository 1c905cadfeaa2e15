import { z } from 'zod';
import type { Strip } from '../../sim/rig/rig.ts';
import { turnsInBarrel } from '../../sim/spool/spring.ts';
import { mapping, quantity } from './field.ts';

/** Arbor where none is stated, mm: on the 6 mm shaft of a usual potentiometer. Assumed. */
const ARBOR_RADIUS_MM = 3;

/** The strip of a spiral spring; its barrel may be told as well. */
export const stripSchema = mapping({
  width: quantity('length', 0.5, 50),
  thickness: quantity('length', 0.02, 1),
  length: quantity('length', 50, 20_000),
  modulus: quantity('modulus', 10, 300).optional(),
  barrel: quantity('length', 1, 100).optional(),
  arbor: quantity('length', 0.5, 50).optional(),
}).transform(({ width, thickness, length, modulus, barrel, arbor }, ctx): Strip => {
  const strip: Strip = {
    widthMm: width,
    thicknessMm: thickness,
    lengthMm: length,
    modulusGPa: modulus ?? STEEL_GPA,
  };
  if (barrel === undefined) return strip;
  const arborRadiusMm = arbor ?? ARBOR_RADIUS_MM;
  if (turnsInBarrel(barrel, arborRadiusMm, thickness, length) === 0) {
    const seen = `a radius of ${barrel} mm, round an arbor of ${arborRadiusMm} mm`;
    const expected = `room for ${length} mm of strip, ${thickness} mm thick`;
    const next = 'make the barrel wider (both are radii), or the strip shorter';
    ctx.issues.push({
      code: 'custom',
      input: barrel,
      path: ['barrel'],
      message: expected,
      params: { seen, expected, next },
    });
    return z.NEVER;
  }
  return { ...strip, barrel: { radiusMm: barrel, arborRadiusMm } };
});

/** Young's modulus of spring steel, GPa (material tables). */
const STEEL_GPA = 200;
