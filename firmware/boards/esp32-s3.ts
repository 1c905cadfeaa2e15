/* Host only. */
import type { BoardFacts } from './facts.ts';

/** The two-core chip with its own USB port. */
export const esp32S3: BoardFacts = {
  id: 'esp32-s3',
  label: 'ESP32-S3',
  status: 'unusable',
  statusReason: 'Not yet usable on the interpreter: its build declares no analog pins, every read gives NaN.',
  adc1Pins: [1, 2, 4, 5, 6, 7, 8, 9, 10, 3],
  adc2Pins: [11, 12, 13, 14, 15, 16, 17, 18, 19, 20],
  strappingPins: [0, 3, 45, 46],
  inputOnlyPins: [],
  flashPins: [26, 27, 28, 29, 30, 31, 32],
  usbPins: [19, 20],
  consolePins: [43, 44],
  aliasedPins: {},
  digitalPins: [21, 47, 38, 39, 40, 41, 42, 14, 13, 12, 11, 15, 16, 17, 18],
  pinNotes: {
    3: 'is a strapping pin: take another ADC1 pin first',
    19: 'is a line of the USB port',
    20: 'is a line of the USB port',
  },
  adcRangeMv: [0, 2900],
  adcRangesMv: { 0: [0, 850], 2.5: [0, 1100], 6: [0, 1600], 11: [0, 2900] },
  clockHz: 240e6,
  readUs: 36.8,
  jsVariables: 16383,
  sources: {
    adc1Pins: 'datasheet, and the ESP-IDF 4.4 documentation',
    adc2Pins: 'datasheet, and the ESP-IDF 4.4 documentation',
    strappingPins: 'datasheet',
    inputOnlyPins: 'from memory: every GPIO has an output driver',
    flashPins: 'from memory of the datasheet; modules with octal memory use 33-37 too',
    usbPins: 'datasheet',
    consolePins: 'from memory of the datasheet: UART0',
    aliasedPins: 'read in espruino/Espruino c5ff787: none, it declares no analog pins',
    digitalPins: 'from memory of the datasheet',
    adcRangeMv:
      'datasheet: ±50 mV up to 2900 mV; the ESP-IDF 4.4 documentation measures up to 950, 1250, 1750, 3100 mV',
    clockHz: 'read in the configuration of espruino/Espruino c5ff787',
    readUs: 'assumed: as the original chip',
    jsVariables: 'read in the board files of espruino/Espruino c5ff787',
    status: 'read in espruino/Espruino c5ff787',
  },
};
