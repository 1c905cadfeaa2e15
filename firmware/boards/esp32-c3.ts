/* Host only. */
import type { BoardFacts } from './facts.ts';

/** The small one-core chip. */
export const esp32C3: BoardFacts = {
  id: 'esp32-c3',
  label: 'ESP32-C3',
  status: 'experimental',
  statusReason:
    'Boards on record read only two levels (esphome/issues#4983) or jump for seconds (esp-rs/esp-idf#468); the cause is not established.',
  adc1Pins: [0, 1, 3, 4, 2],
  adc2Pins: [5],
  strappingPins: [2, 8, 9],
  inputOnlyPins: [],
  flashPins: [12, 13, 14, 15, 16, 17],
  usbPins: [18, 19],
  consolePins: [20, 21],
  aliasedPins: {},
  digitalPins: [10, 6, 7, 5, 4, 3, 1, 0],
  pinNotes: {
    2: 'must be high at reset: a string that holds its wiper low there can keep the board from starting',
    5: 'is on ADC2, which the errata list as not working',
  },
  adcRangeMv: [0, 2500],
  adcRangesMv: { 0: [0, 750], 2.5: [0, 1050], 6: [0, 1300], 11: [0, 2500] },
  clockHz: 160e6,
  readUs: 110.4,
  jsVariables: 4095,
  sources: {
    adc1Pins: 'datasheet; read in espruino/Espruino c5ff787 (exactly these five)',
    adc2Pins: 'datasheet and errata',
    strappingPins: 'datasheet',
    inputOnlyPins: 'from memory: every GPIO has an output driver',
    flashPins: 'from memory of the datasheet',
    usbPins: 'from memory of the datasheet',
    consolePins: 'from memory of the datasheet: UART0',
    aliasedPins: 'read in espruino/Espruino c5ff787: none, its one ADC2 input is commented out',
    digitalPins: 'from memory of the datasheet',
    adcRangeMv: 'datasheet: ±35 mV up to 2500 mV',
    clockHz: 'read in the configuration of espruino/Espruino c5ff787',
    readUs:
      'assumed: the original chip at 240 MHz takes 36.8 µs; here 1.5 times slower, and read in espruino/Espruino c5ff787: each analogRead reads twice',
    jsVariables: 'read in the board files of espruino/Espruino c5ff787',
    status: 'esphome/issues#4983; esp-rs/esp-idf#468',
  },
};
