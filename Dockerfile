# The web application. The store is a service of its own; see docker-compose.yml.

FROM node:20-bookworm-slim AS node

FROM mcr.microsoft.com/dotnet/sdk:10.0 AS build
# The pages' scripts are bundled by Node while the application is published.
COPY --from=node /usr/local/bin/node /usr/local/bin/node
COPY --from=node /usr/local/lib/node_modules /usr/local/lib/node_modules
RUN ln -s ../lib/node_modules/npm/bin/npm-cli.js /usr/local/bin/npm
WORKDIR /source
COPY . .
RUN dotnet publish src/SiteProgress.Web --configuration Release --output /published

FROM mcr.microsoft.com/dotnet/aspnet:10.0
WORKDIR /application
COPY --from=build /published .
COPY seed-data /seed-data
# What is kept outside the store (the heads of the records' chains) belongs to the account the application runs as.
RUN mkdir /kept && chown "$APP_UID" /kept
ENV ASPNETCORE_ENVIRONMENT=Production \
    DOTNET_SYSTEM_GLOBALIZATION_INVARIANT=false \
    SiteProgress__DataFolder=/kept
VOLUME /kept
USER $APP_UID
EXPOSE 8080
ENTRYPOINT ["dotnet", "SiteProgress.Web.dll"]
CMD ["serve", "--urls", "http://0.0.0.0:8080"]
