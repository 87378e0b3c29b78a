import { Injectable } from '@nestjs/common';

/** The time of day as something that a test can hold still. */
@Injectable()
export class Clock {
  now(): Date {
    return new Date();
  }
}
