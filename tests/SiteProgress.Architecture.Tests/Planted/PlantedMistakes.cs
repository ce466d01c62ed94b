// Deliberate mistakes in the folder shape of the product, each in the smallest form that a rule must still see: inside a method body.
#pragma warning disable IDE0130, CA1822, CA1812, CA1852, CA1802, CA1051, CA2211, CA1720, IDE0060
namespace SiteProgress.Architecture.Tests.Planted.Core.Piles
{
    public sealed class PlantedPile
    {
        public static string Name() => "pile";
    }

    public sealed class Innocent
    {
        public static double Sum() => Coordinates.PlantedPoint.Zero();
    }
}

namespace SiteProgress.Architecture.Tests.Planted.Core.Coordinates
{
    public sealed class PlantedPoint
    {
        public const int Constant = 3;

        public double Depth { get; set; }

        public static double Zero() => 0;

        public static string UsesAFolderAbove() => Piles.PlantedPile.Name();

        public static double WithoutUnit(double x) => x;
    }
}

namespace SiteProgress.Architecture.Tests.Planted.Web.Today
{
    public sealed class TodayPage
    {
        public static string Text() => "today";

        public static string UsesAnotherPage() => Map.MapPage.Text();

        public static object UsesTheDatabase() => new Npgsql.NpgsqlConnection();
    }

    public sealed class Innocent
    {
        public static string Text() => Shell.PlantedShell.Text();
    }
}

namespace SiteProgress.Architecture.Tests.Planted.Web.Map
{
    public sealed class MapPage
    {
        public static string Text() => "map";
    }
}

namespace SiteProgress.Architecture.Tests.Planted.Web.Shell
{
    public sealed class PlantedShell
    {
        public static string Text() => "shell";

        public static string UsesAPage() => Today.TodayPage.Text();
    }
}

namespace SiteProgress.Architecture.Tests.Planted.Jobs.Today
{
    public sealed class PlantedJob
    {
        public static object UsesTheWeb() => new Microsoft.AspNetCore.Http.DefaultHttpContext();
    }
}
