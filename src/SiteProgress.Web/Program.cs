using SiteProgress.Web.Commands;

return await CommandLine.RunAsync(args, Console.Out, Console.Error);
