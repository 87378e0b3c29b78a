import { Body, Controller, HttpCode, Param, Post, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import { WithChange, WithIfMatch, type Change } from '../../common/change.js';
import { WithCreation, type Creation } from '../../common/creation.js';
import { Changes, Creates, ReadsOne, ReadsPage, Removes } from '../../common/resource.decorators.js';
import { UuidPipe } from '../../common/uuid.pipe.js';
import { WithCredential, type Credential } from '../access/credential.js';
import {
  SheetMappingInput,
  SheetMappingPage,
  SheetMappingResponse,
  SheetMappingsQuery,
  SuggestionInput,
  SuggestionResponse,
} from './sheet-mappings.dto.js';
import { SheetMappingsService } from './sheet-mappings.service.js';

@ApiTags('Charting')
@ApiBearerAuth()
@Controller('v1/sheet-mappings')
export class SheetMappingsController {
  constructor(private readonly mappings: SheetMappingsService) {}

  @ReadsPage('', SheetMappingPage, SheetMappingResponse, "The clan's mappings of people's own sheets, by name")
  list(@WithCredential() credential: Credential, @Query() query: SheetMappingsQuery): Promise<SheetMappingPage> {
    return this.mappings.list(credential, query);
  }

  @Creates('', SheetMappingResponse, "Keep a mapping of a person's own sheet")
  create(
    @WithCredential() credential: Credential,
    @WithCreation() creation: Creation,
    @Body() input: SheetMappingInput,
  ): Promise<SheetMappingResponse> {
    return this.mappings.create(credential, creation, input);
  }

  @Post('suggestions')
  @HttpCode(200)
  @ApiOperation({ summary: 'Ask for a mapping: the kept one for these headers, a guess, and what only you know' })
  @ApiOkResponse({ type: SuggestionResponse })
  suggest(@WithCredential() credential: Credential, @Body() input: SuggestionInput): Promise<SuggestionResponse> {
    return this.mappings.suggest(credential, input);
  }

  @ReadsOne(':mappingId', SheetMappingResponse, 'A mapping')
  read(
    @WithCredential() credential: Credential,
    @Param('mappingId', UuidPipe) mappingId: string,
  ): Promise<SheetMappingResponse> {
    return this.mappings.read(credential, mappingId);
  }

  @Changes(':mappingId', SheetMappingInput, SheetMappingResponse, 'Change a mapping')
  change(
    @WithCredential() credential: Credential,
    @Param('mappingId', UuidPipe) mappingId: string,
    @WithChange() change: Change,
  ): Promise<SheetMappingResponse> {
    return this.mappings.change(credential, mappingId, change);
  }

  @Removes(':mappingId', 'Remove a mapping; what was imported with it stays')
  remove(
    @WithCredential() credential: Credential,
    @Param('mappingId', UuidPipe) mappingId: string,
    @WithIfMatch() ifMatch: string,
  ): Promise<void> {
    return this.mappings.remove(credential, mappingId, ifMatch);
  }
}
