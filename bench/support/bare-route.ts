import 'reflect-metadata';
import { Body, Controller, HttpCode, Module, Post } from '@nestjs/common';
import { NestFactory } from '@nestjs/core';

/** The least that the framework itself does for such a request: read a JSON body, answer with JSON. */
@Controller('bare')
class BareController {
  @Post()
  @HttpCode(200)
  answer(@Body() body: unknown): object {
    return { calls: [{ call: 'run', probability: 0.5 }], asked: body };
  }
}

@Module({ controllers: [BareController] })
class BareModule {}

const app = await NestFactory.create(BareModule, { logger: false });
await app.listen(0, '127.0.0.1');
process.once('SIGTERM', () => void app.close());
process.stdout.write(`answers at ${await app.getUrl()},\n`);
