/* Host only. */
import type { BoardFacts } from './facts.ts';

const RADIO_DIP =
  'is pulled low for a moment when the ADC or the radio powers up (espressif/esp-idf#1096, #1517, #4117): use one of 32-35 first';
const NOT_OUT = 'is often not brought out of the module';

/** The original chip on a WROOM-32 module. */
export const esp32: BoardFacts = {
  id: 'esp32',
  label: 'ESP32 (WROOM-32)',
  status: 'usable',
  statusReason: 'The interpreter reads all pins of ADC1.',
  adc1Pins: [32, 33, 34, 35, 36, 39, 37, 38],
  adc2Pins: [0, 2, 4, 12, 13, 14, 15, 25, 26, 27],
  strappingPins: [0, 2, 5, 12, 15],
  inputOnlyPins: [34, 35, 36, 37, 38, 39],
  flashPins: [6, 7, 8, 9, 10, 11],
  usbPins: [],
  consolePins: [1, 3],
  aliasedPins: { 4: 36, 0: 37, 2: 38, 15: 39, 13: 32, 12: 33, 14: 34, 27: 35 },
  digitalPins: [18, 19, 21, 22, 23, 25, 26, 27, 13, 14, 16, 17, 4, 33, 32],
  dacPins: [25, 26],
  hiddenPins: [37, 38],
  dippingPins: [36, 39],
  restlessPins: [0, 1, 3, 5, 14, 15],
  pinNotes: {
    0: 'starts the loader instead of the program when it is low at reset',
    1: 'is the console transmit line',
    2: 'must be low or open at reset when a new image is loaded',
    3: 'is the console receive line',
    5: 'chooses the timing of the SDIO port at reset',
    12: 'chooses the flash voltage at reset: high there and the board does not start (micropython/micropython#6149)',
    15: 'silences the messages at start-up when it is low at reset',
    36: RADIO_DIP,
    37: NOT_OUT,
    38: NOT_OUT,
    39: RADIO_DIP,
  },
  adcRangeMv: [150, 2450],
  adcRangesMv: { 0: [100, 950], 2.5: [100, 1250], 6: [150, 1750], 11: [150, 2450] },
  clockHz: 240e6,
  readUs: 36.8,
  jsVariables: 16383,
  sources: {
    adc1Pins:
      'datasheet; read in espruino/Espruino c5ff787 (an ADC2 number there returns an ADC1 pin instead)',
    adc2Pins:
      'from memory of the datasheet; owned by the radio: espressif/arduino-esp32#440 (4095 while Wi-Fi runs)',
    strappingPins: 'datasheet',
    inputOnlyPins: 'datasheet',
    flashPins: 'datasheet',
    usbPins: 'datasheet: none, the console is a UART',
    consolePins: 'datasheet: UART0',
    aliasedPins:
      'read in espruino/Espruino c5ff787: the board files list eight ADC2 inputs, and the read takes their channel number for one of ADC1',
    digitalPins: 'datasheet; 16 and 17 last but four, since modules with more memory use them (from memory)',
    dacPins:
      'datasheet; read in espruino/Espruino c5ff787: analogWrite takes these two to the converter, whatever frequency is asked for',
    hiddenPins: 'from memory: WROOM modules bring out neither',
    dippingPins: 'errata, and espressif/esp-idf#1096: low for about 80 ns',
    restlessPins: 'from memory: pulses or high level seen on these while the chip starts',
    adcRangeMv: 'datasheet: suggested ranges of the ESP-IDF documentation',
    clockHz:
      'read in the IDF 3.1 configuration of espruino/Espruino c5ff787; its IDF 4 build sets 160 MHz: there all times are 1.5 times longer',
    readUs: 'measured by labfruits, "ESP32 ADC speed": 27.2 thousand one-shot reads a second at 240 MHz',
    jsVariables: 'read in the board files of espruino/Espruino c5ff787',
    status: 'read in espruino/Espruino c5ff787',
  },
};
