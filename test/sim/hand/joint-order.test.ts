import { describe, expect, it } from 'vitest';
import { OPENXR_JOINTS, WEBXR_JOINTS, webxrOfOpenxr } from '../../../sim/hand/joint-order.ts';

/** An OpenXR name written the WebXR way: the two standards differ in spelling only. */
function webxrSpelling(openxr: string): string {
  const [finger, part] = openxr.toLowerCase().split('_');
  if (part === undefined) return finger;
  const name = finger === 'thumb' ? 'thumb' : `${finger === 'little' ? 'pinky' : finger}-finger`;
  const bones = ['proximal', 'intermediate', 'distal'];
  return `${name}-${bones.includes(part) ? 'phalanx-' : ''}${part}`;
}

describe('joint orders', () => {
  it('has the 25 joints of WebXR and the 26 of OpenXR, each once', () => {
    // W3C WebXR Hand Input draft; Khronos XR_EXT_hand_tracking (XR_HAND_JOINT_COUNT_EXT 26).
    expect(new Set(WEBXR_JOINTS).size).toBe(25);
    expect(new Set(OPENXR_JOINTS).size).toBe(26);
  });

  it('starts each finger where the standards say', () => {
    // Indices of the two specifications: wrist 0, thumb 1, index 5, middle 10, ring 15, little 20.
    expect(WEBXR_JOINTS.indexOf('wrist')).toBe(0);
    expect(WEBXR_JOINTS.indexOf('thumb-metacarpal')).toBe(1);
    expect(WEBXR_JOINTS.indexOf('index-finger-metacarpal')).toBe(5);
    expect(WEBXR_JOINTS.indexOf('middle-finger-metacarpal')).toBe(10);
    expect(WEBXR_JOINTS.indexOf('ring-finger-metacarpal')).toBe(15);
    expect(WEBXR_JOINTS.indexOf('pinky-finger-metacarpal')).toBe(20);
    expect(OPENXR_JOINTS.indexOf('PALM')).toBe(0);
    expect(OPENXR_JOINTS.indexOf('WRIST')).toBe(1);
    expect(OPENXR_JOINTS.indexOf('LITTLE_METACARPAL')).toBe(21);
    expect(OPENXR_JOINTS.indexOf('LITTLE_TIP')).toBe(25);
  });

  it('maps every OpenXR joint but the palm to the same joint of WebXR, one place earlier', () => {
    expect(webxrOfOpenxr(0)).toBe(-1);
    for (let i = 1; i < OPENXR_JOINTS.length; i += 1) {
      expect(WEBXR_JOINTS[webxrOfOpenxr(i)]).toBe(webxrSpelling(OPENXR_JOINTS[i]));
    }
  });
});
