/** A sentence for the operator: the queue cannot be used as it is configured. Names no password. */
export class QueueUnreachableError extends Error {
  constructor(message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = 'QueueUnreachableError';
  }
}
