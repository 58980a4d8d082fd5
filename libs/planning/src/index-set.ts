/** A set of small whole numbers from which one can be drawn at random; its order is that of what was done to it. */
export class IndexSet {
  private readonly list: Int32Array;
  private readonly position: Int32Array;
  size = 0;

  /** @param bound members are in [0, bound) */
  constructor(bound: number) {
    this.list = new Int32Array(bound);
    this.position = new Int32Array(bound).fill(-1);
  }

  /** The member at a place in [0, size). */
  at(place: number): number {
    return this.list[place]!;
  }

  has(member: number): boolean {
    return this.position[member] !== -1;
  }

  add(member: number): void {
    if (this.has(member)) return;
    this.position[member] = this.size;
    this.list[this.size] = member;
    this.size += 1;
  }

  delete(member: number): void {
    const place = this.position[member]!;
    if (place === -1) return;
    this.size -= 1;
    const moved = this.list[this.size]!;
    this.list[place] = moved;
    this.position[moved] = place;
    this.position[member] = -1;
  }

  clear(): void {
    this.position.fill(-1);
    this.size = 0;
  }
}
