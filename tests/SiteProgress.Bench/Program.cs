using SiteProgress.Bench;

return await BenchCommand.RunAsync(args, Measurements.All, Console.Out, Console.Error);
