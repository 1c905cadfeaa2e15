/** Effects that the study leaves out; FIDELITY.md says more of each. */
export const NOT_MODELLED = [
  'stretch and creep of the string, crossed layers on the spool',
  'play and friction of the potentiometer’s own bearing',
  'movement of the wrist and of the guides on the glove or hand',
  'joints that move by themselves: one string gives one closure',
  'temperature, moisture, ageing of parts within the 20 s',
  'differential nonlinearity of the ADC beyond the habit of odd codes',
  'a wiper that lifts off the track',
  'losses and delays of the link, of the host and of the screen',
  'interrupts and memory clean-up of the interpreter',
];
