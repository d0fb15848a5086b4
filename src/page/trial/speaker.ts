// The motors to be heard: a button that starts the sound and stops it; nothing is ever played by itself.
import { motorSound, type Rotors } from "./motor-sound.js";

const RATE = 44_100; // samples a second

export interface Speaker {
  /** Loads another trial and stops what is playing. */
  readonly load: (rotors: Rotors) => void;
}

export function speaker(button: HTMLButtonElement): Speaker {
  let context: AudioContext | null = null;
  let playing: AudioBufferSourceNode | null = null;
  let rotors: Rotors | null = null;
  const stop = () => {
    playing?.stop();
    playing = null;
    button.textContent = "Hear the motors";
  };
  const start = (loaded: Rotors) => {
    context ??= new AudioContext();
    const samples = motorSound(loaded, RATE);
    const buffer = context.createBuffer(1, samples.length, RATE);
    buffer.copyToChannel(samples, 0);
    const source = context.createBufferSource();
    source.buffer = buffer;
    source.connect(context.destination);
    source.addEventListener("ended", () => {
      if (playing === source) stop();
    });
    source.start();
    playing = source;
    button.textContent = "Stop the sound";
  };
  button.addEventListener("click", () => {
    if (playing !== null) stop();
    else if (rotors !== null) start(rotors);
  });
  return {
    load(next) {
      stop();
      rotors = next;
    },
  };
}
