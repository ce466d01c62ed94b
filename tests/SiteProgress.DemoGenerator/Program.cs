Console.WriteLine("use: dotnet run --project tests/SiteProgress.DemoGenerator -- FOLDER");
