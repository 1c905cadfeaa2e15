export * from '../../sim/sizing/pin-rules.ts';
