import { ValidationPipe, type ArgumentMetadata, type PipeTransform } from '@nestjs/common';
import { fieldProblems } from './field-problems.js';
import { ApiError } from './problems.js';

/** Checks bodies and addresses by the rules of their classes, and refuses what these do not know. */
export class FieldsPipe implements PipeTransform<unknown, Promise<unknown>> {
  private readonly body = pipeOf('property');
  private readonly address = pipeOf('parameter');

  transform(value: unknown, metadata: ArgumentMetadata): Promise<unknown> {
    return (metadata.type === 'body' ? this.body : this.address).transform(value, metadata);
  }
}

function pipeOf(kind: 'parameter' | 'property'): ValidationPipe {
  return new ValidationPipe({
    transform: true,
    whitelist: true,
    forbidNonWhitelisted: true,
    exceptionFactory: (errors) =>
      new ApiError('request.invalid', 'some fields are not valid', { errors: fieldProblems(errors, kind) }),
  });
}
