@echo off
rem Runs the command from its sources, as ./reckoner does on other systems: builds it first when they changed.
rem A batch file cannot compare dates, but robocopy can tell whether two folders differ in a file's size or date or in
rem having it at all. So a copy of the sources as they were last built is kept, and compared with them at each start.
setlocal
set "root=%~dp0"
set "dll=%root%artifacts\bin\Reckoner.Cli\release\reckoner.dll"
set "state=%root%artifacts\start-cmd"
set "quiet=/R:0 /W:0 /NJH /NJS /NFL /NDL /NP"
set "download=https://dotnet.microsoft.com/download/dotnet/10.0"

where /q dotnet
if errorlevel 1 (
    >&2 echo reckoner: this needs the .NET SDK 10, and there is no dotnet on the PATH; get it from %download%, then run this again.
    exit /b 2
)

call :compare
if defined fresh goto run

if not exist "%state%" md "%state%"
2>nul type nul >"%state%\probe"
if not exist "%state%\probe" (
    >&2 echo reckoner: the build needs to write to %state%, and cannot.
    exit /b 70
)

rem Only one start at a time can hold the lock open. One that cannot does nothing, sets no outcome and tries again.
:wait
set "outcome="
2>nul (call :build 9>"%state%\lock")
if not defined outcome (
    ping -n 2 127.0.0.1 >nul
    goto wait
)
if "%outcome%"=="no-sdk" (
    >&2 echo reckoner: building needs the .NET SDK 10, and dotnet has none here; get it from %download%, then run this again.
    exit /b 2
)
if "%outcome%"=="failed" (
    >&2 echo reckoner: the build failed:
    >&2 type "%state%\log"
    exit /b 70
)

:run
if not "%~1"=="open" goto start
set "RECKONER_PAGE=%root%artifacts\page\wwwroot"
pushd "%root%"
dotnet publish src\Reckoner.Page -c Release -v quiet -nologo -p:RunAnalyzers=false -o artifacts\page <nul >"%state%\page.log" 2>&1
if errorlevel 1 (
    popd
    >&2 echo reckoner: the build of the page failed:
    >&2 type "%state%\page.log"
    exit /b 70
)
popd

:start
dotnet "%dll%" %*
exit /b %errorlevel%

:compare
set "fresh="
if not exist "%dll%" exit /b
if not exist "%state%\stamp" exit /b
robocopy "%root%src" "%state%\src" /MIR /L %quiet% >nul
if errorlevel 1 exit /b
robocopy "%root%." "%state%\files" global.json *.props .editorconfig /PURGE /L %quiet% >nul
if errorlevel 1 exit /b
set "fresh=yes"
exit /b

rem Another start may have built while this one waited. The sources are copied before the build, so that a file saved
rem during it differs from its copy; and without a stamp, a build that was broken off counts for nothing.
:build
call :compare
if defined fresh (
    set "outcome=built"
    exit /b
)
pushd "%root%"
dotnet --version >nul 2>&1
if errorlevel 1 (
    popd
    set "outcome=no-sdk"
    exit /b
)
if exist "%state%\stamp" del "%state%\stamp"
robocopy "%root%src" "%state%\src" /MIR %quiet% >nul
robocopy "%root%." "%state%\files" global.json *.props .editorconfig /PURGE %quiet% >nul
set "DOTNET_NOLOGO=1"
set "DOTNET_CLI_TELEMETRY_OPTOUT=1"
set "DOTNET_GENERATE_ASPNET_CERTIFICATE=false"
rem No build server may outlive the build: it would keep the lock open.
dotnet build src\Reckoner.Cli -c Release -v quiet -nologo --no-incremental -p:RunAnalyzers=false -nodeReuse:false -p:UseSharedCompilation=false <nul >"%state%\log" 2>&1
if errorlevel 1 (set "outcome=failed") else (set "outcome=built")
popd
if "%outcome%"=="built" >"%state%\stamp" echo built
exit /b
