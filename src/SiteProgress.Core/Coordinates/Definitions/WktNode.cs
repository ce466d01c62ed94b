namespace SiteProgress.Core.Coordinates.Definitions;

/// <summary>One bracketed element of a well-known text: a keyword with texts, numbers, bare words and further elements, in order.</summary>
internal sealed record WktNode(string Keyword, IReadOnlyList<string> Texts, IReadOnlyList<double> Numbers, IReadOnlyList<WktNode> Children, IReadOnlyList<string> Words)
{
    public string Name => Texts.Count > 0 ? Texts[0] : "";

    public WktNode? Child(params ReadOnlySpan<string> keywords)
    {
        foreach (var child in Children)
            foreach (var keyword in keywords)
                if (child.Keyword == keyword) return child;
        return null;
    }

    public IEnumerable<WktNode> All(string keyword) => Children.Where(c => c.Keyword == keyword);
}
