using Shouldly;
using SiteProgress.Jobs.Operation;
using SiteProgress.Jobs.RecordsIn;
using Xunit;

namespace SiteProgress.Jobs.Tests.Operation;

/// <summary>A full disk is told from a sender that broke off.</summary>
public sealed class DiskRoomTests
{
    [Fact]
    public void Writing_to_a_full_device_is_a_full_disk()
    {
        Assert.SkipUnless(File.Exists("/dev/full"), "This system has no device that is always full.");
        using FileStream full = new("/dev/full", FileMode.Open, FileAccess.Write, FileShare.ReadWrite, bufferSize: 0);

        IOException failure = Should.Throw<IOException>(() => full.Write([1]));

        DiskRoom.IsFull(failure).ShouldBeTrue();
    }

    [Fact]
    public void Other_failures_of_files_are_not()
    {
        IOException failure = Should.Throw<IOException>(() => File.ReadAllBytes(Path.Combine(Path.GetTempPath(), Guid.NewGuid().ToString("N"))));

        DiskRoom.IsFull(failure).ShouldBeFalse();
        DiskRoom.IsFull(new IOException("The sender broke off.")).ShouldBeFalse();
    }

    [Fact]
    public void Who_sent_the_file_is_told_that_the_file_is_not_at_fault()
        => StoreUpload.Sentence(UploadRefusal.DiskFull, new IntakeLimits()).ShouldContain("the file itself is not at fault");
}
