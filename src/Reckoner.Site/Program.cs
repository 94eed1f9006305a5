using Reckoner.Site;

// reckoner-site REPOSITORY FOLDER: the handbook and the catalogue as pages in a folder that needs no server.
if (args is not [var repository, var folder])
{
    await Console.Error.WriteLineAsync("reckoner-site REPOSITORY FOLDER");
    return 2;
}
var site = new SiteFolder(Path.GetFullPath(folder));
var handbook = HandbookPages.Of(Path.GetFullPath(repository), site);
var machines = MachinePages.Of(site);
var index = new SearchIndex();
foreach (var page in handbook.Concat(machines))
{
    index.Add(page);
    site.Write(page.Path, PageFrame.Of(page, handbook));
}
site.Write("search-index.js", index.Text);
site.Write("search.js", Resources.Text("search.js"));
site.Write("site.css", Resources.Text("site.css"));
var published = Path.Combine(repository, "artifacts/page/wwwroot");
if (File.Exists(Path.Combine(published, "index.html")))
{
    site.Write(MachinePages.Program, Reckoner.Host.SingleFile.Of(published));
}
Console.WriteLine($"{folder}: {handbook.Count + machines.Count} pages");
return 0;
