// The motors to be heard: a button that starts the sound and stops it, and how loud; nothing is ever played by itself.
import { motorSound, type Rotors } from "./motor-sound.js";

const RATE = 44_100; // samples a second
const GLIDE = 0.02; // s, to another loudness, so that nothing clicks

export interface Speaker {
  /** Loads another trial and stops what is playing. */
  readonly load: (rotors: Rotors) => void;
}

interface Controls {
  readonly button: HTMLButtonElement;
  /** 0 to 100 */
  readonly level: HTMLInputElement;
}

/** Loudness is felt by the logarithm of power: the square comes near it, and 0 is silence. */
const gainAt = (level: number): number => (level / 100) ** 2;

export function speaker({ button, level }: Controls): Speaker {
  let playing: { readonly source: AudioBufferSourceNode; readonly gain: GainNode } | null = null;
  let context: AudioContext | null = null;
  let rotors: Rotors | null = null;
  const stop = () => {
    playing?.source.stop();
    playing = null;
    button.textContent = "Hear the motors";
  };
  const start = (loaded: Rotors) => {
    context ??= new AudioContext();
    const samples = motorSound(loaded, RATE);
    const buffer = context.createBuffer(1, samples.length, RATE);
    buffer.copyToChannel(samples, 0);
    const source = context.createBufferSource();
    const gain = context.createGain();
    gain.gain.value = gainAt(Number(level.value));
    source.buffer = buffer;
    source.connect(gain).connect(context.destination);
    source.addEventListener("ended", () => {
      if (playing?.source === source) stop();
    });
    source.start();
    playing = { source, gain };
    button.textContent = "Stop the sound";
  };
  const setLevel = () => {
    level.setAttribute("aria-valuetext", level.value === "0" ? "silent" : `${level.value} %`);
    if (playing !== null && context !== null)
      playing.gain.gain.setTargetAtTime(gainAt(Number(level.value)), context.currentTime, GLIDE);
  };
  button.addEventListener("click", () => {
    if (playing !== null) stop();
    else if (rotors !== null) start(rotors);
  });
  level.addEventListener("input", setLevel);
  setLevel();
  return {
    load(next) {
      stop();
      rotors = next;
    },
  };
}
