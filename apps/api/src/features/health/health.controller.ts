import { Controller, Get } from '@nestjs/common';
import { ApiOkResponse, ApiOperation, ApiProperty, ApiTags } from '@nestjs/swagger';
import { HealthRepository } from './health.repository.js';

class HealthResponse {
  @ApiProperty({ example: 'up' }) status!: string;
}

@ApiTags('Service')
@Controller('health')
export class HealthController {
  constructor(private readonly database: HealthRepository) {}

  @Get('live')
  @ApiOperation({ summary: 'Whether the process runs' })
  @ApiOkResponse({ type: HealthResponse })
  live(): HealthResponse {
    return { status: 'up' };
  }

  @Get('ready')
  @ApiOperation({ summary: 'Whether the database answers' })
  @ApiOkResponse({ type: HealthResponse })
  async ready(): Promise<HealthResponse> {
    await this.database.ping();
    return { status: 'up' };
  }
}
