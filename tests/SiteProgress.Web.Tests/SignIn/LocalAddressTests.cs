using Shouldly;
using SiteProgress.Web.SignIn;
using Xunit;

namespace SiteProgress.Web.Tests.SignIn;

/// <summary>Where a person may be sent on to.</summary>
public sealed class LocalAddressTests
{
    [Theory]
    [InlineData("/sites/a/map?zone=B")]
    [InlineData("/")]
    public void An_address_of_this_server_is_followed(string address) => LocalAddress.Or(address, "/else").ShouldBe(address);

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("//elsewhere.example.org/")]
    [InlineData("/\\elsewhere.example.org/")]
    [InlineData("https://elsewhere.example.org/")]
    [InlineData("javascript:alert(1)")]
    [InlineData("sites/a")]
    [InlineData("/\t/elsewhere.example.org")]
    public void Any_other_is_not(string? address) => LocalAddress.Or(address, "/else").ShouldBe("/else");
}
