"""The job on disk: SQLite, pictures, history chain. The only room that knows SQL or file layout."""

from gudgeon.jobfile.check import check, standing
from gudgeon.jobfile.devices import Device, DeviceList
from gudgeon.jobfile.fault import Damaged, JobExists, JobFault, Locked, Moved, NewerJob, NoJob, NoPicture, ReadOnly
from gudgeon.jobfile.jobfile import Draft, JobFile
from gudgeon.jobfile.shed import JobInfo, jobs_in

__all__ = [
    "Damaged",
    "Device",
    "DeviceList",
    "Draft",
    "JobExists",
    "JobFault",
    "JobFile",
    "JobInfo",
    "Locked",
    "Moved",
    "NewerJob",
    "NoJob",
    "NoPicture",
    "ReadOnly",
    "check",
    "jobs_in",
    "standing",
]
