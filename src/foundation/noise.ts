/**
 * Chance by counter, not by stream: a draw depends on (seed, stream, counter) and on nothing else, so that adding a
 * sensor, stopping early or changing the number of threads changes nobody else's draws.
 *
 * Only 32-bit integer arithmetic and one multiplication: bit-identical on every machine.
 */

/** One round of the murmur3 mixing function (Austin Appleby, 2011, public domain). */
function mix(hash: number, key: number): number {
  let k = Math.imul(key, 0xcc9e2d51);
  k = (k << 15) | (k >>> 17);
  k = Math.imul(k, 0x1b873593);
  let h = hash ^ k;
  h = (h << 13) | (h >>> 19);
  return (Math.imul(h, 5) + 0xe6546b64) | 0;
}

/** Final avalanche of murmur3: every input bit reaches every output bit. */
function avalanche(hash: number): number {
  let h = hash ^ (hash >>> 16);
  h = Math.imul(h, 0x85ebca6b);
  h ^= h >>> 13;
  h = Math.imul(h, 0xc2b2ae35);
  return h ^ (h >>> 16);
}

/** Unsigned 32-bit hash of three integers; each is taken modulo 2^32. */
export function hash32(first: number, second: number, third: number): number {
  return avalanche(mix(mix(mix(0, first | 0), second | 0), third | 0) ^ 12) >>> 0;
}

/** Unsigned 32-bit hash of a text, to make a stream number from an id. */
export function hashText(text: string): number {
  let hash = 0;
  for (let index = 0; index < text.length; index++) hash = mix(hash, text.charCodeAt(index));
  return avalanche(hash ^ text.length) >>> 0;
}

/** Uniform in the open interval (0, 1), never either end. */
export function hashUniform(seed: number, stream: number, counter: number): number {
  return (hash32(seed, stream, counter) + 0.5) / 4294967296;
}

/** sqrt(3): scales a sum of four centred uniforms (variance 4/12) to variance one. */
const UNIT_VARIANCE = 1.7320508075688772;
const SECOND_HALF = 0x9e3779b9;

/**
 * Bell-shaped noise of mean 0 and variance 1, bounded by 2 * sqrt(3) = 3.464: the sum of four uniforms
 * (Irwin-Hall distribution). The bound is what lets rules skip ticks that cannot matter.
 */
export function hashNoise(seed: number, stream: number, counter: number): number {
  const first = hash32(seed, stream, counter);
  const second = hash32(seed ^ SECOND_HALF, stream, counter);
  const sum = (first & 0xffff) + (first >>> 16) + (second & 0xffff) + (second >>> 16) + 2;
  return (sum / 65536 - 2) * UNIT_VARIANCE;
}

/** No draw of `hashNoise` lies farther from zero. */
export const NOISE_BOUND = 3.5;
