using System.Globalization;
using System.Text;
using SiteProgress.Core.Coordinates;
using SiteProgress.Core.Derivation;

namespace SiteProgress.Exchange.HandOver;

/// <summary>
/// The as-built plan as a drawing in the plain exchange form (DXF of release 12, text), site-grid metres: layer DESIGN holds a circle
/// of the design diameter a pile, AS-BUILT one of the equivalent diameter, DEVIATION the line between the two, NUMBER the pile numbers.
/// </summary>
public static class AsBuiltDrawing
{
    private const double TextHeightShare = 0.2;

    /// <summary>Writes the drawing.</summary>
    /// <param name="output">Where to; it is flushed and not closed.</param>
    /// <param name="site">The site as derived from its records.</param>
    public static void Write(Stream output, DerivedSite site)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(site);
        using StreamWriter text = new(output, Encoding.ASCII, leaveOpen: true) { NewLine = "\r\n" };
        Pairs pairs = new(text);
        // $ACADVER AC1009 names release 12 of the form.
        pairs.Text(0, "SECTION").Text(2, "HEADER").Text(9, "$ACADVER").Text(1, "AC1009").Text(0, "ENDSEC");
        pairs.Text(0, "SECTION").Text(2, "ENTITIES");
        foreach (DerivedPile pile in site.Piles) Pile(pairs, pile);
        pairs.Text(0, "ENDSEC").Text(0, "EOF");
    }

    private static void Pile(Pairs pairs, DerivedPile pile)
    {
        SiteCoordinate design = pile.Judgement.Pile.Position;
        double diameter = pile.Judgement.Pile.DiameterMetres;
        pairs.Circle("DESIGN", design, diameter / 2);
        pairs.Text(0, "TEXT").Text(8, "NUMBER").Place(10, design).Number(40, diameter * TextHeightShare).Text(1, pile.Judgement.Pile.Number);
        if (pile.Judgement.Position?.AsBuilt is not { } built) return;
        pairs.Circle("AS-BUILT", built, (pile.Judgement.MeanDiameterMetres ?? diameter) / 2);
        pairs.Text(0, "LINE").Text(8, "DEVIATION").Place(10, design).Place(11, built);
    }

    /// <summary>Group codes and values, a line each.</summary>
    private sealed class Pairs(StreamWriter output)
    {
        public Pairs Text(int code, string value)
        {
            output.WriteLine(code.ToString(CultureInfo.InvariantCulture));
            foreach (char letter in value)
            {
                // A line is a value: a line end within one would be read as the next group.
                if (letter is >= ' ' and <= '~') output.Write(letter);
                else output.Write("\\U+" + ((int)letter).ToString("X4", CultureInfo.InvariantCulture));
            }

            output.WriteLine();
            return this;
        }

        public Pairs Number(int code, double value) => Text(code, value.ToString("F4", CultureInfo.InvariantCulture));

        public Pairs Place(int code, SiteCoordinate at) => Number(code, at.XMetres).Number(code + 10, at.YMetres).Number(code + 20, 0);

        public Pairs Circle(string layer, SiteCoordinate centre, double radius)
            => Text(0, "CIRCLE").Text(8, layer).Place(10, centre).Number(40, radius);
    }
}
