export * from '../../sim/sizing/pin-uses.ts';
