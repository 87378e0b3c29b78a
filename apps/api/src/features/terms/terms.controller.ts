import { Body, Controller, Delete, HttpCode, Param, Post, Query } from '@nestjs/common';
import { ApiBearerAuth, ApiOkResponse, ApiOperation, ApiTags } from '@nestjs/swagger';
import { WithChange, WithIfMatch, type Change } from '../../common/change.js';
import { WithCreation, type Creation } from '../../common/creation.js';
import { NumberPipe } from '../../common/number.pipe.js';
import { Changes, Creates, IF_MATCH, ReadsOne, ReadsPage } from '../../common/resource.decorators.js';
import { WithCredential, type Credential } from '../access/credential.js';
import { Needs } from '../access/needs.js';
import { DictionaryService } from './dictionary.service.js';
import { NewTerm, TermChange, TermMerger, TermPage, TermResponse, TermsQuery } from './terms.dto.js';

@ApiTags('Vocabulary')
@ApiBearerAuth()
@Controller('v1/terms')
export class TermsController {
  constructor(private readonly dictionary: DictionaryService) {}

  @ReadsPage('', TermPage, TermResponse, "The starter terms and the clan's own, with the words for them")
  @Needs('profiles')
  list(@WithCredential() credential: Credential, @Query() query: TermsQuery): Promise<TermPage> {
    return this.dictionary.list(credential, query);
  }

  @Creates('', TermResponse, 'Add a term of your own')
  create(
    @WithCredential() credential: Credential,
    @WithCreation() creation: Creation,
    @Body() input: NewTerm,
  ): Promise<TermResponse> {
    return this.dictionary.create(credential, creation, input);
  }

  @ReadsOne(':termId', TermResponse, 'A term')
  @Needs('profiles')
  read(@WithCredential() credential: Credential, @Param('termId', NumberPipe) termId: number): Promise<TermResponse> {
    return this.dictionary.read(credential, termId);
  }

  @Changes(
    ':termId',
    TermChange,
    TermResponse,
    'Change or retire a term of yours, or your words for a starter term; no term is ever removed, since plays carry it',
  )
  change(
    @WithCredential() credential: Credential,
    @Param('termId', NumberPipe) termId: number,
    @WithChange() change: Change,
  ): Promise<TermResponse> {
    return this.dictionary.change(credential, termId, change);
  }

  @Post(':termId/merger')
  @HttpCode(200)
  @ApiOperation({ summary: 'Let a term of yours count as another one; plays keep what they were charted with' })
  @IF_MATCH
  @ApiOkResponse({ type: TermResponse })
  merge(
    @WithCredential() credential: Credential,
    @Param('termId', NumberPipe) termId: number,
    @WithIfMatch() ifMatch: string,
    @Body() { intoId }: TermMerger,
  ): Promise<TermResponse> {
    return this.dictionary.merge(credential, termId, ifMatch, intoId);
  }

  @Delete(':termId/merger')
  @ApiOperation({ summary: 'Let a merged term count as itself again' })
  @IF_MATCH
  @ApiOkResponse({ type: TermResponse })
  separate(
    @WithCredential() credential: Credential,
    @Param('termId', NumberPipe) termId: number,
    @WithIfMatch() ifMatch: string,
  ): Promise<TermResponse> {
    return this.dictionary.separate(credential, termId, ifMatch);
  }
}
